#include "library/migration.h"

#include "library/backup.h"
#include "library/journal.h"
#include "library/schema.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <cstddef>
#include <system_error>

namespace cospot::library {

namespace {

namespace fs = std::filesystem;

bool can_be_changed(const fs::path &file) {
    return is_writable(file) && is_writable(folder_of(file));
}

void check_can_be_changed(const fs::path &file) {
    if (!can_be_changed(file)) {
        throw InputError({file.string(), 0, ""},
                         fmt::format("a library of format {}, which cannot be written",
                                     format_of(Database(file, Access::read))),
                         fmt::format("format {}: copy the library into a folder that you can "
                                     "write; cospot then upgrades the copy",
                                     schema_version()));
    }
}

/// A name beside the library that no file has yet: an older backup stays.
fs::path backup_name(const fs::path &file, int format) {
    fs::path name = fmt::format("{}.format-{}.backup", file.string(), format);
    std::error_code error;
    for (int i = 2; fs::exists(name, error); ++i) {
        name = fmt::format("{}.format-{}.{}.backup", file.string(), format, i);
    }
    return name;
}

/// Backs a library up beside it; returns the backup's name.
fs::path backed_up(const Database &library) {
    fs::path name = backup_name(library.file(), format_of(library));
    back_up(library, name);
    return name;
}

/// Changes a library that was backed up.
template <typename Change>
void change_or_remove(const fs::path &backup, const Database &library, Change change) {
    try {
        change();
    } catch (...) {
        // The library is as it was, so that each new try would leave another copy of it.
        if (library.is_in_place()) {
            std::error_code ignored;
            fs::remove(backup, ignored);
        }
        throw;
    }
}

constexpr const char *kRollbackJournal = "PRAGMA journal_mode = DELETE";

/// Keeps everybody else out until the connection is closed; false where others are in.
bool lock_out_others(Database &database) {
    try {
        database.execute("PRAGMA busy_timeout = 0; PRAGMA locking_mode = EXCLUSIVE; "
                         "BEGIN IMMEDIATE; COMMIT");
        return true;
    } catch (const DatabaseInUse &) {
        return false;
    }
}

} // namespace

int schema_version() {
    return static_cast<int>(kMigrations.size());
}

int format_of(const Database &database) {
    Statement statement = database.prepare("PRAGMA user_version");
    return statement.step() ? static_cast<int>(statement.integer(0)) : 0;
}

void apply_migrations(Database &database, int from, int to) {
    for (int i = from; i < to; ++i) {
        database.execute(std::string(kMigrations.at(static_cast<std::size_t>(i))));
    }
    database.execute(fmt::format("PRAGMA user_version = {}", to));
}

void upgrade_library(const fs::path &name, const Notice &notice) {
    // The backup goes beside the library, not beside a link to it.
    const fs::path file = fs::canonical(name);
    check_can_be_changed(file);
    Database database(file, Access::write);
    // From here on nobody else writes, so the backup is the library that the migration changes.
    Transaction transaction(database);
    const int format = format_of(database);
    if (format >= schema_version()) {
        return; // another process was faster
    }
    const fs::path kept = backed_up(Database(file, Access::read));
    change_or_remove(kept, database, [&] {
        apply_migrations(database, format, schema_version());
        transaction.commit_quietly();
    });
    try {
        database.execute(kRollbackJournal);
    } catch (const DatabaseError &) {
        // In use, or no room: the next who writes does it.
    }
    if (notice) {
        notice(fmt::format("{}: upgraded from format {} to {}; the library as it was is kept in {}",
                           file.string(), format, schema_version(), kept.string()));
    }
}

bool has_write_ahead_log(const Database &database) {
    Statement mode = database.prepare("PRAGMA journal_mode");
    return mode.step() && mode.text(0) == "wal";
}

void leave_write_ahead_log(const fs::path &name, const Notice &notice) {
    const fs::path file = fs::canonical(name);
    if (!can_be_changed(file)) {
        return; // which whoever writes is told
    }
    Database database(file, Access::write);
    if (!has_write_ahead_log(database) || !lock_out_others(database)) {
        return;
    }
    const fs::path kept = backed_up(database);
    change_or_remove(kept, database, [&] { database.execute(kRollbackJournal); });
    if (notice) {
        notice(fmt::format("{}: changed so that it can lie on a network folder; the library as it "
                           "was is kept in {}",
                           file.string(), kept.string()));
    }
}

} // namespace cospot::library
