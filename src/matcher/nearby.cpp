#include "matcher/nearby.h"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace cospot::matcher {

namespace {

constexpr std::ptrdiff_t kClosest = 10;

/// |t| stays below it but for `kOutOfReach`; quantiles are slow and few freedoms differ.
double reach_of(double freedom, std::map<double, double> &known) {
    const auto [entry, is_new] = known.try_emplace(freedom, 0.0);
    if (is_new) {
        entry->second = boost::math::quantile(
            boost::math::complement(boost::math::students_t(freedom), kOutOfReach / 2.0));
    }
    return entry->second;
}

} // namespace

NearbyCandidates::NearbyCandidates(const SystemModel &system) : system_(&system) {
    std::map<double, double> reaches;
    for (std::uint32_t i = 0; i < system.candidates.size(); ++i) {
        const CandidateDensity &candidate = system.candidates[i];
        if (candidate.always != Censoring::none) {
            censored_.push_back(i);
            continue;
        }
        const double reach = reach_of(candidate.freedom, reaches);
        places_.push_back({candidate.location, candidate.scale, reach, i});
        farthest_ = std::max(farthest_, reach * candidate.scale);
        widest_ = std::max(widest_, reach);
        slope_ = std::max(slope_, scale_slope(system.quantity, candidate.mean));
    }
    std::sort(places_.begin(), places_.end(),
              [](const Place &a, const Place &b) { return a.location < b.location; });
}

std::vector<std::uint32_t> NearbyCandidates::near(double value, double uncertainty,
                                                  const RunShift &shift, double extra) const {
    std::vector<std::uint32_t> positions;
    if (censoring(system_->quantity, value) != Censoring::none) {
        positions.resize(system_->candidates.size());
        std::iota(positions.begin(), positions.end(), 0U);
        return positions;
    }
    const double x = to_model_scale(system_->quantity, value) - shift.mean;
    const double noise = std::hypot(uncertainty * slope_, std::sqrt(shift.variance));
    const double width = farthest_ + widest_ * noise + extra;
    const auto below = [](const Place &place, double location) {
        return place.location < location;
    };
    const auto middle = std::lower_bound(places_.begin(), places_.end(), x, below);
    const auto first = std::lower_bound(places_.begin(), middle, x - width, below);
    positions = censored_;
    for (auto place = first; place != places_.end() && place->location <= x + width; ++place) {
        const double distance = std::abs(x - place->location) - extra;
        if (distance <= place->reach * std::hypot(place->scale, noise)) {
            positions.push_back(place->position);
        }
    }
    const auto closest = middle - std::min(kClosest, middle - places_.begin());
    const auto end = middle + std::min(kClosest, places_.end() - middle);
    for (auto place = closest; place != end; ++place) {
        positions.push_back(place->position);
    }
    std::sort(positions.begin(), positions.end());
    positions.erase(std::unique(positions.begin(), positions.end()), positions.end());
    return positions;
}

} // namespace cospot::matcher
