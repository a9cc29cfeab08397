#pragma once

#include "integration/photo_settings.h"
#include "options/options.h"

namespace cospot {

/// Adds the options that say how a photo of a plate is read; every command that reads plates has
/// them.
void add_photo_options(CommandOptions &options);

/// Reads them. Throws InputError for values that cannot be.
[[nodiscard]] PhotoSettings photo_settings(const CommandOptions &options);

} // namespace cospot
