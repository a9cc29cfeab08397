#pragma once

#include "model/matcher/likelihood.h"
#include "model/matcher/run_prior.h"
#include "model/matcher/sample.h"

#include <cstdint>
#include <span>
#include <vector>

namespace cospot::matcher {

/// A reading of a run that may tell where it lies.
struct RunReading {
    Observation *observation = nullptr; ///< null: a standard
    double value = 0.0;                 ///< in the unit
    double uncertainty = 0.0;
    double scaled = 0.0;                    ///< on the model scale
    double on_line = 0.0;                   ///< on the scale of the line
    double unlisted = 0.0;                  ///< density of an unlisted compound there
    const CandidateDensity *held = nullptr; ///< of a standard
};

/// One system's part of a run.
struct RunReadings {
    const SystemModel *system = nullptr;
    RunPrior prior;
    std::vector<RunReading> features;
    std::vector<RunReading> standards; ///< whose compounds the library holds
    std::vector<Observation *> silent; ///< beside a standard, vague, or of too many
    std::size_t absurd = 0; ///< so far off all that is known that no run moves them there
    double spread = 0.0;    ///< of a middle candidate, on the scale of the line
    double farthest = 0.0;  ///< of a reading from the centre, on the scale of the line
    double middle = 0.0;    ///< reading, on the scale of the line

    [[nodiscard]] std::size_t count() const { return features.size() + standards.size(); }
};

/// The readings of a run on one system. Those at the start or the front tell nothing; of more than
/// 150 an even choice does.
[[nodiscard]] RunReadings readings_on(std::size_t system, std::span<SampleFeature> features,
                                      const Knowledge &knowledge);

/// Positions of all candidates that a feature may be, wherever the run lies.
[[nodiscard]] std::vector<std::uint32_t> candidates_of(const RunReadings &run,
                                                       const NearbyCandidates &nearby);

/// Sets `spread`, `farthest` and `middle`; there must be a reading.
void measure(RunReadings &run, std::span<const std::uint32_t> candidates);

} // namespace cospot::matcher
