#pragma once

#include "options.h"

#include <optional>
#include <string>

namespace cospot {

/// Adds the options that say which compounds may be proposed; every command that identifies has
/// them.
void add_candidate_options(CommandOptions &options);

/// The probability of `unlisted` before measuring. Throws InputError for one that cannot be.
[[nodiscard]] double prior_unlisted(const CommandOptions &options);

/// The file of structures that are candidates too, if one was given.
[[nodiscard]] std::optional<std::string> also_file(const CommandOptions &options);

} // namespace cospot
