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

void check_is_writable(const fs::path &file) {
    const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
    if (!is_writable(file) || !is_writable(folder)) {
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
    check_is_writable(file);
    Database database(file, Access::write);
    // From here on nobody else writes, so the backup is the library that the migration changes.
    Transaction transaction(database);
    const int format = format_of(database);
    if (format >= schema_version()) {
        return; // another process was faster
    }
    const fs::path kept = backup_name(file, format);
    {
        Database as_it_was(file, Access::read);
        back_up(as_it_was, kept);
    }
    try {
        apply_migrations(database, format, schema_version());
        transaction.commit();
    } catch (...) {
        // The library is as it was, so that each new try would leave another copy of it.
        if (database.is_in_place()) {
            std::error_code ignored;
            fs::remove(kept, ignored);
        }
        throw;
    }
    if (notice) {
        notice(fmt::format("{}: upgraded from format {} to {}; the library as it was is kept in {}",
                           file.string(), format, schema_version(), kept.string()));
    }
}

} // namespace cospot::library
