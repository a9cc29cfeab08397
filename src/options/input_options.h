#pragma once

#include "evidence/input_features.h"
#include "options/command.h"
#include "options/options.h"

namespace cospot {

/// Adds the options that say how a plate or chromatogram is to be read; every command that reads
/// one has them.
void add_input_options(CommandOptions &options);

/// Reads them, before the library is opened. Throws InputError for values that cannot be.
[[nodiscard]] InputSettings input_settings(const CommandOptions &options,
                                           const Invocation &invocation);

} // namespace cospot
