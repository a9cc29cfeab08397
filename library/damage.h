#pragma once

#include "library/database.h"

#include <optional>
#include <string_view>
#include <utility>

namespace cospot::library {

/// Throws DatabaseError: the library in the file holds what no program wrote.
[[noreturn]] void report_damage(std::string_view file);
[[noreturn]] void report_damage(const Database &database);

/// What a sound library is sure to hold. Throws DatabaseError where it is not there.
template <typename T> [[nodiscard]] T sound(std::optional<T> found, const Database &database) {
    if (!found) {
        report_damage(database);
    }
    return *std::move(found);
}

} // namespace cospot::library
