#pragma once

#include "options/options.h"

#include <cstddef>
#include <optional>
#include <string>

namespace cospot {

/// Adds the options that say which compounds may be proposed; every command that identifies has
/// them.
void add_candidate_options(CommandOptions &options);

/// The probability of `unlisted` before measuring. Throws InputError for one that cannot be.
[[nodiscard]] double prior_unlisted(const CommandOptions &options);

/// The most that --top may ask for.
inline constexpr std::size_t kMostListed = 1000;

/// How many candidates or systems are to be listed, by --top. Throws InputError for none and for
/// more than `kMostListed`.
[[nodiscard]] std::size_t top_of(const CommandOptions &options);

/// The file of structures that are candidates too, if one was given.
[[nodiscard]] std::optional<std::string> also_file(const CommandOptions &options);

} // namespace cospot
