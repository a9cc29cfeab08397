#pragma once

#include "library/database.h"

#include <string>
#include <string_view>

namespace cospot::library {

/// Who changed the library, when and how.
struct Change {
    std::string who;    ///< login name on the computer
    std::string at_utc; ///< ISO 8601
    std::string detail; ///< file names, or the reason
};

/// Notes in the library who changes it, now, by which command; returns the id that the rows of the
/// change carry. Call it inside the transaction of the change.
[[nodiscard]] ChangeId begin_change(Database &database, std::string_view action,
                                    std::string_view detail);

} // namespace cospot::library
