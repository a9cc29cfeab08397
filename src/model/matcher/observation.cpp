#include "model/matcher/observation.h"

#include "model/matcher/reading_error.h"
#include "model/matcher/run_prior.h"
#include "shared/student_t.h"

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

namespace {

/// Of the compound's own deviation of the day: all of the library's spread but what readings of one
/// run differ by.
double day_variance(const CandidateDensity &held, const StandardInRun &standard) {
    const double all = held.scale * held.scale;
    return std::max(all - standard.within_variance, 0.1 * all);
}

} // namespace

ShiftMixture shifts_at(const Observation &observation, const SystemModel &system) {
    return observation.shifts.empty() ? prior_shifts(run_prior(system), system, observation.value)
                                      : observation.shifts;
}

void settle(Observation &observation, const SystemModel &system) {
    observation.shifts = shifts_at(observation, system);
    observation.typical_shift = typical(observation.shifts);
}

RunShift typical_shift(const Observation &observation, const SystemModel &system) {
    return observation.typical_shift ? *observation.typical_shift
                                     : typical(shifts_at(observation, system));
}

Expectation expectation_of(std::size_t compound, const Observation &observation,
                           const SystemModel &system) {
    Expectation expectation{find_candidate(system, compound), nullptr};
    if (observation.standards) {
        const auto &standards = *observation.standards;
        const auto found = std::lower_bound(standards.begin(), standards.end(), compound,
                                            [](const StandardInRun &standard, std::size_t wanted) {
                                                return standard.compound < wanted;
                                            });
        if (found != standards.end() && found->compound == compound) {
            expectation.standard = &*found;
        }
    }
    return expectation;
}

CandidateDensity density_in_run(const Expectation &expectation, const RunShift &shift,
                                const SystemModel &system) {
    if (expectation.standard == nullptr) {
        CandidateDensity density = *expectation.held;
        density.location += shift.mean;
        density.scale = std::hypot(density.scale, std::sqrt(shift.variance));
        return density;
    }
    const StandardInRun &standard = *expectation.standard;
    const double reading = to_model_scale(system.quantity, standard.value);
    const double read_error = standard.uncertainty * scale_slope(system.quantity, standard.value);
    const double variance = standard.within_variance / standard.readings + read_error * read_error;
    CandidateDensity density;
    density.compound = standard.compound;
    density.basis = Basis::same_run;
    density.location = reading;
    double rest = variance; // of where the compound runs today
    density.freedom = kReadingFreedom;
    density.runs = 1;
    if (expectation.held != nullptr && expectation.held->always == Censoring::none) {
        const CandidateDensity &held = *expectation.held;
        const double before = day_variance(held, standard) + shift.variance;
        const double gain = before / (before + variance);
        density.location =
            held.location + shift.mean + gain * (reading - held.location - shift.mean);
        rest = gain * variance;
        density.runs = held.runs + 1;
    }
    density.scale = std::sqrt(rest + standard.within_variance);
    density.log_constant = student_t_constant(density.freedom);
    density.mean = from_model_scale(system.quantity, density.location);
    density.mean_uncertainty = std::sqrt(rest) / scale_slope(system.quantity, density.mean);
    density.always = censoring(system.quantity, standard.value);
    return density;
}

CandidateDensity typical_density(const Expectation &expectation, const Observation &observation,
                                 const SystemModel &system) {
    return density_in_run(expectation, typical_shift(observation, system), system);
}

double log_density(const Expectation &expectation, const Observation &observation,
                   const SystemModel &system, const ShiftMixture &shifts) {
    std::optional<ReadCandidate> held; // the same for all ways in which the run may lie
    if (expectation.standard == nullptr) {
        held.emplace(*expectation.held, system.quantity, observation.value,
                     observation.uncertainty);
    }
    double sum = 0.0;
    double largest = 0.0;
    bool is_first = true;
    for (const auto &[weight, shift] : shifts) {
        const double one =
            std::log(weight) +
            (held ? held->log_density(shift)
                  : log_density(density_in_run(expectation, shift, system), system.quantity,
                                observation.value, observation.uncertainty));
        if (is_first || one > largest) {
            sum = is_first ? 1.0 : sum * std::exp(largest - one) + 1.0;
            largest = one;
        } else {
            sum += std::exp(one - largest);
        }
        is_first = false;
    }
    return largest + std::log(sum);
}

} // namespace cospot::matcher
