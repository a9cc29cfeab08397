#include "model/matcher/nearby.h"

#include "model/matcher/reading_error.h"
#include "model/matcher/run_prior.h"
#include "shared/student_t.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace cospot::matcher {

namespace {

/// |t| stays below it but for `kOutOfReach`; quantiles are slow and few freedoms differ.
double reach_of(double freedom, std::map<double, double> &known) {
    const auto [entry, is_new] = known.try_emplace(freedom, 0.0);
    if (is_new) {
        entry->second = -student_t_quantile(freedom, kOutOfReach / 2.0);
    }
    return entry->second;
}

} // namespace

double Reach::width(double error, double extra) const {
    return farthest + widest * error + extra;
}

NearbyCandidates::NearbyCandidates(const SystemModel &system)
    : quantity_(system.quantity), size_(system.candidates.size()) {
    std::map<double, double> reaches;
    reach_of_reading_ = reach_of(kReadingFreedom, reaches);
    reach_.widest = reach_of_reading_;
    places_.reserve(size_);
    for (const std::uint32_t i :
         system.by_location.empty() ? ordered_by_location(system) : system.by_location) {
        const CandidateDensity &candidate = system.candidates[i];
        if (candidate.always != Censoring::none) {
            censored_.push_back(i);
            continue;
        }
        const auto reach = static_cast<float>(reach_of(candidate.freedom, reaches));
        places_.push_back({candidate.location, candidate.scale, reach, i});
        const double widest = std::max<double>(reach, reach_of_reading_);
        reach_.farthest = std::max(reach_.farthest, widest * candidate.scale);
        reach_.widest = std::max(reach_.widest, widest);
    }
}

std::vector<std::uint32_t> NearbyCandidates::near(double value, double uncertainty,
                                                  const ShiftMixture &shifts) const {
    const ShiftRange range = range_of(shifts);
    return near(value, uncertainty, range.middle,
                range.half_width + kReachOfShift * std::sqrt(range.largest_variance));
}

std::vector<std::uint32_t> NearbyCandidates::near(double value, double uncertainty, double shift,
                                                  double extra) const {
    std::vector<std::uint32_t> positions;
    if (censoring(quantity_, value) != Censoring::none) {
        positions.resize(size_);
        std::iota(positions.begin(), positions.end(), 0U);
        return positions;
    }
    const double x = to_model_scale(quantity_, value) - shift;
    const double error = error_of(quantity_, value, uncertainty);
    const double width = reach_.width(error, extra);
    const auto is_below = [](const Place &place, double location) {
        return place.location < location;
    };
    const auto middle = std::lower_bound(places_.begin(), places_.end(), x, is_below);
    const auto most = static_cast<std::ptrdiff_t>(kClosest);
    const auto closest = middle - std::min(most, middle - places_.begin());
    const auto closest_end = middle + std::min(most, places_.end() - middle);
    const auto first =
        std::min(closest, std::lower_bound(places_.begin(), middle, x - width, is_below));
    positions = censored_;
    for (auto place = first;
         place != places_.end() && (place < closest_end || place->location <= x + width); ++place) {
        const double distance = std::max(0.0, std::abs(x - place->location) - extra);
        const double reach =
            error > 0.0 ? std::max<double>(place->reach, reach_of_reading_) : place->reach;
        const double variance = place->scale * place->scale + error * error;
        if ((place >= closest && place < closest_end) ||
            distance * distance <= reach * reach * variance) {
            positions.push_back(place->position);
        }
    }
    return positions;
}

} // namespace cospot::matcher
