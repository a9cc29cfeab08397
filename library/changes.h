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

/// Who calls the program: the login name on the computer.
[[nodiscard]] std::string login_name();

/// Notes in the library who changes it, now, by which verb and command (`Database::command`);
/// returns the id that the rows of the change carry. Call it inside the transaction of the change.
[[nodiscard]] ChangeId begin_change(Database &database, std::string_view action,
                                    std::string_view detail);

/// Notes that the change is about the compound or system as a whole.
void note_subject(Database &database, ChangeId change, CompoundId compound);
void note_subject(Database &database, ChangeId change, SystemId system);

/// Notes that a value was retired by one change and is taken back by another, which no row of the
/// value will say afterwards.
void note_value(Database &database, MeasurementId value, ChangeId retired, ChangeId taken_back);

/// The same for all values that the change retired, but for their runs.
void note_values(Database &database, ChangeId retired, ChangeId taken_back);

} // namespace cospot::library
