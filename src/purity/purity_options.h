#pragma once

#include "evidence/input_features.h"
#include "options/command.h"
#include "options/options.h"
#include "purity/detectors.h"
#include "purity/limits.h"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// What the user asked for, but for the compounds, which are looked up in the library.
struct PurityOptions {
    std::vector<std::string> files;
    std::optional<std::string> sample; ///< the only one that is judged
    InputSettings settings;
    std::optional<std::string> blank_file;
    InputSettings blank_settings;
    purity::Limits limits;
    bool asks_solvents = false;
    std::optional<double> detection_ppm; ///< of a residual solvent
    const purity::Detector *detector = nullptr;
    double prior_unlisted = 0.0;
    bool learns_unlisted = true;
    std::optional<std::string> also_file;
    bool has_sheets = false;
};

void add_purity_options(CommandOptions &options);

/// Reads them, and the rules where they stand in a file. Throws InputError for options that do not
/// go together.
[[nodiscard]] PurityOptions purity_options(const CommandOptions &options,
                                           const Invocation &invocation,
                                           std::istream &standard_input);

} // namespace cospot
