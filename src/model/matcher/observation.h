#pragma once

#include "model/matcher/candidate_density.h"
#include "model/matcher/run_shift.h"
#include "model/matcher/system_model.h"

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

namespace cospot::matcher {

/// A standard that ran beside the sample: a measurement of its compound under exactly these
/// conditions.
struct StandardInRun {
    std::size_t compound = 0;     ///< index in the problem's list of compounds
    double value = 0.0;           ///< in the unit of the quantity, mean of its readings
    double uncertainty = 0.0;     ///< standard uncertainty of reading that mean, same unit
    double readings = 1.0;        ///< behind the mean
    double within_variance = 0.0; ///< of single readings in one run, model scale
};

/// The standards of one run on one system, ascending by compound.
using StandardsInRun = std::vector<StandardInRun>;

/// One measured quantity of a feature on one system.
struct Observation {
    std::size_t system = 0;   ///< index of the system model
    double value = 0.0;       ///< in the unit of the quantity
    double uncertainty = 0.0; ///< standard uncertainty of this reading, in the same unit
    ShiftMixture shifts{};    ///< how its run lies there; empty: as any run may (`prior_shifts`)
    std::shared_ptr<const StandardsInRun> standards{}; ///< beside it; null: none
    std::optional<RunShift> typical_shift{};           ///< of `shifts`; set by `settle`
};

/// How the run of an observation lies against the library at its place.
[[nodiscard]] ShiftMixture shifts_at(const Observation &observation, const SystemModel &system);

/// Sets `shifts` where they are empty, and `typical_shift`: both take a while and are asked for
/// with each candidate.
void settle(Observation &observation, const SystemModel &system);

/// The middle of how the run lies, as `typical` has it.
[[nodiscard]] RunShift typical_shift(const Observation &observation, const SystemModel &system);

/// What the library and a standard beside the sample say of one compound on the system of an
/// observation.
struct Expectation {
    const CandidateDensity *held = nullptr;  ///< of the library, or null
    const StandardInRun *standard = nullptr; ///< in the run, or null

    [[nodiscard]] bool is_known() const { return held != nullptr || standard != nullptr; }
};

[[nodiscard]] Expectation expectation_of(std::size_t compound, const Observation &observation,
                                         const SystemModel &system);

/// The density of what a compound shows in the run: that of the library moved to the run, joined
/// with the standard's reading as two measurements of one quantity. The location is that in the
/// run.
[[nodiscard]] CandidateDensity density_in_run(const Expectation &expectation, const RunShift &shift,
                                              const SystemModel &system);

/// The same at the middle of what is believed of the run: what a reader is told.
[[nodiscard]] CandidateDensity typical_density(const Expectation &expectation,
                                               const Observation &observation,
                                               const SystemModel &system);

/// Natural logarithm of the density (or, censored, of the probability) of an observation, over all
/// ways in which its run may lie: `shifts` as of `shifts_at`.
[[nodiscard]] double log_density(const Expectation &expectation, const Observation &observation,
                                 const SystemModel &system, const ShiftMixture &shifts);

} // namespace cospot::matcher
