#pragma once

#include "purity/judged_sample.h"
#include "purity/trend.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot::purity {

/// How a file was read: what holds for all its samples.
struct JudgedFile {
    std::string name;
    std::vector<std::string> lead{}; ///< what must be known before the answer is read
    std::vector<std::string> notes{};
    std::size_t count = 0; ///< of samples
};

/// All that one call of `purity` found.
struct PurityResult {
    std::string declared;
    std::string limits{}; ///< which ones hold, in words
    std::vector<JudgedFile> files{};
    bool has_left_out = false;           ///< a run could not be judged
    std::vector<JudgedSample> samples{}; ///< file after file
    std::optional<Trend> trend{};        ///< of several samples
};

} // namespace cospot::purity
