#pragma once

#include "library/database.h"
#include "shared/quantity.h"

#include <string>
#include <vector>

namespace cospot::library {

/// One plate developed, one injection or one day's series. An empty text means "not stated".
struct Run {
    std::string name;
    std::string date; ///< YYYY-MM-DD, YYYY-MM or YYYY
    std::string operator_name;
    std::string instrument;
};

/// The id of this run on this system; it is stored if the library does not hold it.
RunId find_or_add_run(Database &database, SystemId system, const Run &run, ChangeId change);

/// The runs on this system in which a value of the compound and quantity holds, the last dates
/// first.
[[nodiscard]] std::vector<Run> runs_with_value(Database &database, CompoundId compound,
                                               SystemId system, Quantity quantity);

} // namespace cospot::library
