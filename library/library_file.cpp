#include "library/library_file.h"

#include "library/partial_file.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <fstream>
#include <string>
#include <string_view>
#include <system_error>

namespace cospot::library {

namespace {

namespace fs = std::filesystem;

// Closing a file drops all of this process's locks on it (POSIX), SQLite's too: this may only look
// at a library that the process has not open.
bool starts_like_sqlite(const fs::path &file) {
    constexpr std::string_view magic("SQLite format 3\0", 16);
    std::string head(magic.size(), ' ');
    std::ifstream in(file, std::ios::binary);
    in.read(head.data(), static_cast<std::streamsize>(head.size()));
    return in && head == magic;
}

void check_is_file(const fs::path &file) {
    std::error_code error;
    if (!fs::exists(file, error)) {
        throw InputError({file.string(), 0, ""}, "no such file",
                         "a library (create one with: cospot --library FILE init)");
    }
    if (!fs::is_regular_file(file, error) || !starts_like_sqlite(file)) {
        throw InputError({file.string(), 0, ""}, "a file that is no retention library",
                         "a file made by: cospot --library FILE init");
    }
}

void check_version(const Database &database) {
    const std::string name = database.file().string();
    Statement mark = database.prepare("PRAGMA application_id");
    if (!mark.step() || mark.integer(0) != kApplicationId) {
        throw InputError({name, 0, ""}, "a database of another program",
                         "a file made by: cospot --library FILE init");
    }
    const int format = format_of(database);
    if (format < 1) {
        throw InputError({name, 0, ""}, fmt::format("a library of format {}", format),
                         "a library that was completely made; restore a backup");
    }
    if (format > schema_version()) {
        throw InputError({name, 0, ""}, fmt::format("a library of format {}", format),
                         fmt::format("format {} or older; update cospot", schema_version()));
    }
}

} // namespace

void create_library(const fs::path &file) {
    check_name_is_free(file);
    // Made under another name: an interrupted init must not leave half a library.
    const PartialFile partial(file);
    {
        Database database(partial.name(), Access::create);
        Transaction transaction(database);
        database.execute(fmt::format("PRAGMA application_id = {}", kApplicationId));
        apply_migrations(database, 0, schema_version());
        transaction.commit();
        database.execute("PRAGMA journal_mode = WAL");
    }
    partial.publish();
}

Database open_unchanged(const fs::path &file) {
    check_is_file(file);
    Database database(file, Access::read);
    check_version(database);
    return database;
}

Database open_library(const fs::path &file, Access access, const Notice &notice) {
    bool is_old = false;
    {
        Database reader = open_unchanged(file);
        is_old = format_of(reader) < schema_version();
        if (!is_old && access == Access::read) {
            return reader;
        }
    }
    if (is_old) {
        upgrade_library(file, notice);
    }
    return Database(file, access);
}

} // namespace cospot::library
