#include "library/changes.h"

#include "shared/date.h"

#include <pwd.h>
#include <unistd.h>

#include <string>

namespace cospot::library {

namespace {

std::string login_name() {
    const passwd *entry = getpwuid(getuid()); // NOLINT(concurrency-mt-unsafe): called once a change
    return entry != nullptr ? entry->pw_name : "user " + std::to_string(getuid());
}

} // namespace

ChangeId begin_change(Database &database, std::string_view action, std::string_view detail) {
    database.cached("INSERT INTO change (at_utc, who, action, detail) VALUES (?1, ?2, ?3, ?4)")
        .bind(1, utc_now())
        .bind(2, login_name())
        .bind(3, action)
        .bind(4, detail)
        .run();
    return database.last_insert_id<ChangeId>();
}

} // namespace cospot::library
