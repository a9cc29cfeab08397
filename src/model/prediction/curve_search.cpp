#include "model/prediction/curve_search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <vector>

namespace cospot::prediction {

namespace {

constexpr std::size_t kMostCompounds = 120;
constexpr int kSweeps = 4;
constexpr std::array<double, 2> kFactors = {2.0, 1.4};
/// A change that gains less is not worth an unusual parameter.
constexpr double kErrorGain = 0.003; ///< of the logarithm of the squared error

/// A parameter that the search may change.
struct Knob {
    double *value;
    double low;
    double high;
};

std::vector<Knob> knobs_of(CurveParameters &parameters, bool several_mixtures) {
    std::vector<Knob> knobs = {{&parameters.weights.linear, 1e-3, 5.0},
                               {&parameters.weights.radial, 1e-3, 5.0},
                               {&parameters.weights.fingerprint, 1e-3, 5.0},
                               {&parameters.own, 1e-3, 2.0},
                               {&parameters.noise, 1e-4, 1.0}};
    if (several_mixtures) {
        knobs.push_back({&parameters.shared.knee, 0.005, 0.5});
        knobs.push_back({&parameters.shared.width, 0.1, 4.0});
        knobs.push_back({&parameters.own_width, 0.1, 8.0});
        knobs.push_back({&parameters.weights.common, 1e-3, 5.0});
    }
    return knobs;
}

/// At most `kMostCompounds` positions, evenly spread.
std::vector<Eigen::Index> spread_over(std::size_t compounds) {
    const std::size_t count = std::min(compounds, kMostCompounds);
    std::vector<Eigen::Index> chosen;
    for (std::size_t i = 0; i < count; ++i) {
        chosen.push_back(static_cast<Eigen::Index>(i * compounds / count));
    }
    return chosen;
}

/// Raises the score by changing one parameter after the other.
void climb(const std::vector<Knob> &knobs, double smallest_gain,
           const std::function<double()> &score) {
    double best = score();
    const auto try_factor = [&](const Knob &knob, double factor) {
        const double before = *knob.value;
        *knob.value = std::clamp(before * factor, knob.low, knob.high);
        const double now = *knob.value == before ? best : score();
        if (now > best + smallest_gain) {
            best = now;
            return true;
        }
        *knob.value = before;
        return false;
    };
    for (const double factor : kFactors) {
        bool changed = true;
        for (int sweep = 0; sweep < kSweeps && changed; ++sweep) {
            changed = false;
            for (const Knob &knob : knobs) {
                changed = try_factor(knob, factor) || try_factor(knob, 1.0 / factor) || changed;
            }
        }
    }
}

} // namespace

CurveParameters search_parameters(const RetentionTable &table, const CompoundGrams &grams) {
    const auto chosen = spread_over(table.compounds.size());
    const RetentionTable sample = part_of(table, chosen);
    const CompoundGrams sample_grams = part_of(grams, chosen, chosen);
    CurveParameters parameters;
    const auto knobs = knobs_of(parameters, table.mixtures.size() > 1);
    const auto kernel = [&] { return compound_kernel(sample_grams, parameters.weights); };
    climb(knobs, kErrorGain,
          [&] { return -std::log(left_out_error(fit_curves(sample, kernel(), parameters))); });
    return parameters;
}

} // namespace cospot::prediction
