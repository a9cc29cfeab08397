#pragma once

#include "integration/integration_settings.h"
#include "options/options.h"

namespace cospot {

/// Adds the options that say how a trace is read and its peaks are found; every command that reads
/// chromatograms has them.
void add_trace_options(CommandOptions &options);

/// Reads them. Throws InputError for values that cannot be, and for changes by hand without a
/// reason.
[[nodiscard]] IntegrationSettings integration_settings(const CommandOptions &options);

} // namespace cospot
