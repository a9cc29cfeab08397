#pragma once

#include "library/database.h"

#include <string>

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

} // namespace cospot::library
