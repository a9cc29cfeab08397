#include "model/matcher/listed_density.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace cospot::matcher {

namespace {

constexpr double kPointsInSpread = 4.0;
constexpr double kMostPoints = 20000.0;
constexpr double kReach = 8.0; ///< in spreads

/// A Student t of unit scale over its standardised distance, looked up.
class StandardShape {
public:
    explicit StandardShape(const CandidateDensity &like) {
        for (int i = 0; i <= kPoints; ++i) {
            const double z = kReach * i / kPoints;
            values_.push_back(std::exp(like.log_constant - 0.5 * (like.freedom + 1.0) *
                                                               std::log1p(z * z / like.freedom)));
        }
    }
    [[nodiscard]] double at(double z) const {
        return values_[static_cast<std::size_t>(std::abs(z) * (kPoints / kReach) + 0.5)];
    }

private:
    static constexpr int kPoints = 400;
    std::vector<double> values_;
};

double narrowest(const SystemModel &system, std::span<const std::uint32_t> positions) {
    double least = 0.0;
    for (const std::uint32_t position : positions) {
        const double scale = system.candidates[position].scale;
        least = least > 0.0 ? std::min(least, scale) : scale;
    }
    return least;
}

} // namespace

ListedDensity::ListedDensity(const SystemModel &system, std::span<const std::uint32_t> positions,
                             const Prior &prior, double total_weight, double blur, Stretch stretch)
    : low_(stretch.low) {
    const double width = std::max(stretch.high - stretch.low, 1e-9);
    const double spread = std::hypot(narrowest(system, positions), blur);
    step_ = std::max({spread / kPointsInSpread, width / kMostPoints, 1e-12});
    values_.assign(static_cast<std::size_t>(width / step_) + 2, 0.0);
    std::map<double, StandardShape> shapes; // by degrees of freedom; few differ
    for (const std::uint32_t position : positions) {
        const CandidateDensity &candidate = system.candidates[position];
        if (candidate.always != Censoring::none) {
            continue;
        }
        const StandardShape &shape = shapes.try_emplace(candidate.freedom, candidate).first->second;
        const double scale = std::max(std::hypot(candidate.scale, blur), 0.5 * step_);
        const double height = prior.weight_of(candidate.compound) / total_weight / scale;
        const double first = (candidate.location - kReach * scale - low_) / step_;
        const double last = (candidate.location + kReach * scale - low_) / step_;
        const auto end = static_cast<double>(values_.size() - 1);
        for (double i = std::max(0.0, std::ceil(first)); i <= std::min(last, end); i += 1.0) {
            const double z = (low_ + i * step_ - candidate.location) / scale;
            values_[static_cast<std::size_t>(i)] +=
                height * shape.at(std::clamp(z, -kReach, kReach));
        }
    }
}

double ListedDensity::at(double x) const {
    const double place = (x - low_) / step_;
    if (place < 0.0 || place >= static_cast<double>(values_.size() - 1)) {
        return 0.0;
    }
    const auto index = static_cast<std::size_t>(place);
    const double share = place - static_cast<double>(index);
    return values_[index] + share * (values_[index + 1] - values_[index]);
}

} // namespace cospot::matcher
