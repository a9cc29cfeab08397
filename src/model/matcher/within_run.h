#pragma once

#include "model/matcher/system_model.h"

#include <span>
#include <vector>

namespace cospot::matcher {

/// How widely readings of one compound scatter within one run, beyond the error of reading.
struct WithinRun {
    double variance = 0.0;   ///< model scale
    bool is_assumed = false; ///< neither the library nor the run holds repeats
};

/// From the library's replicates in one run and from repeats in this run: `repeats` holds the
/// readings of each compound on the model scale. Where there are none, a third of the spread that
/// is assumed between runs (common practice, no source).
[[nodiscard]] WithinRun within_run(const SystemModel &system,
                                   std::span<const std::vector<double>> repeats);

} // namespace cospot::matcher
