#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace cospot::desk {

/// The target of a request, taken apart and decoded.
struct Target {
    std::vector<std::string> path;                              ///< without empty parts
    std::vector<std::pair<std::string, std::string>> questions; ///< name and value, in order

    /// The value of a question; empty without it.
    [[nodiscard]] std::string question(std::string_view name) const;
};

/// Parts between slashes are decoded each for itself, so that a slash within one divides nothing.
/// A percent sign that begins no pair of hexadecimal digits stands for itself.
[[nodiscard]] Target target_of(std::string_view text);

} // namespace cospot::desk
