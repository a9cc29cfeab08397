#pragma once

#include "evidence/input_features.h"
#include "identification/registered_run.h"
#include "options/command.h"
#include "options/options.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// What the user asked for.
struct IdentifyOptions {
    std::vector<std::string> files;
    InputSettings input;
    std::optional<std::string> second_file{}; ///< the peaks of the sample on a second column
    InputSettings second{};                   ///< how these are read
    std::optional<std::string> prior;         ///< file of weights
    std::optional<std::string> also;          ///< file of structures
    double prior_unlisted = 0.0;
    bool learns_unlisted = true; ///< no --prior-unlisted was given
    bool is_recalibrated = true;
    RunSearch search = RunSearch::wanted;
    std::size_t top = 0;
    bool explains = false;
    bool has_sheets = false;
};

[[nodiscard]] CommandOptions identify_options();

/// Reads them, before the library is opened. Throws InputError for options that do not go together.
[[nodiscard]] IdentifyOptions read_identify_options(const CommandOptions &options,
                                                    const Invocation &invocation);

} // namespace cospot
