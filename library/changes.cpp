#include "library/changes.h"

#include "shared/date.h"
#include "shared/text.h"

#include <pwd.h>
#include <unistd.h>

#include <string>

namespace cospot::library {

namespace {

/// Cut where it names thousands of files.
std::string command_of(const Database &database) {
    constexpr std::size_t most = 2000;
    const std::string &command = database.command();
    return command.size() <= most ? command : std::string(first_columns(command, most)) + " ...";
}

} // namespace

std::string login_name() {
    const passwd *entry = getpwuid(getuid()); // NOLINT(concurrency-mt-unsafe): called once a change
    return entry != nullptr ? entry->pw_name : "user " + std::to_string(getuid());
}

ChangeId begin_change(Database &database, std::string_view action, std::string_view detail) {
    database
        .cached("INSERT INTO change (at_utc, who, action, detail, command) "
                "VALUES (?1, ?2, ?3, ?4, ?5)")
        .bind(1, utc_now())
        .bind(2, login_name())
        .bind(3, action)
        .bind(4, detail)
        .bind(5, command_of(database))
        .run();
    return database.last_insert_id<ChangeId>();
}

void note_subject(Database &database, ChangeId change, CompoundId compound) {
    database.cached("INSERT INTO change_subject (change_id, compound_id) VALUES (?1, ?2)")
        .bind(1, change)
        .bind(2, compound)
        .run();
}

void note_subject(Database &database, ChangeId change, SystemId system) {
    database.cached("INSERT INTO change_subject (change_id, system_id) VALUES (?1, ?2)")
        .bind(1, change)
        .bind(2, system)
        .run();
}

void note_value(Database &database, MeasurementId value, ChangeId retired, ChangeId taken_back) {
    for (const ChangeId change : {retired, taken_back}) {
        database
            .cached("INSERT INTO change_subject (change_id, compound_id, system_id, run_id) "
                    "SELECT ?2, compound_id, system_id, run_id FROM measurement WHERE id = ?1")
            .bind(1, value)
            .bind(2, change)
            .run();
    }
}

void note_values(Database &database, ChangeId retired, ChangeId taken_back) {
    for (const ChangeId change : {retired, taken_back}) {
        database
            .cached("INSERT INTO change_subject (change_id, compound_id, system_id) "
                    "SELECT DISTINCT ?2, compound_id, system_id FROM measurement "
                    "WHERE retired_change_id = ?1")
            .bind(1, retired)
            .bind(2, change)
            .run();
    }
}

} // namespace cospot::library
