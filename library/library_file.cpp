#include "library/library_file.h"

#include "library/schema.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <fstream>
#include <string>
#include <system_error>

namespace cospot::library {

namespace {

namespace fs = std::filesystem;

std::int64_t pragma(const Database &database, std::string_view name) {
    Statement statement = database.prepare(fmt::format("PRAGMA {}", name));
    return statement.step() ? statement.integer(0) : 0;
}

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
    if (pragma(database, "application_id") != kApplicationId) {
        throw InputError({name, 0, ""}, "a database of another program",
                         "a file made by: cospot --library FILE init");
    }
    const std::int64_t version = pragma(database, "user_version");
    if (version > schema_version()) {
        throw InputError({name, 0, ""}, fmt::format("a library of format {}", version),
                         fmt::format("format {} or older; update cospot", schema_version()));
    }
}

void migrate(Database &database, std::int64_t from) {
    Transaction transaction(database);
    for (std::size_t i = static_cast<std::size_t>(from); i < kMigrations.size(); ++i) {
        database.execute(std::string(kMigrations[i]));
    }
    database.execute(fmt::format("PRAGMA user_version = {}", schema_version()));
    transaction.commit();
}

} // namespace

int schema_version() {
    return static_cast<int>(kMigrations.size());
}

void create_library(const fs::path &file) {
    std::error_code error;
    if (fs::exists(file, error)) {
        throw InputError({file.string(), 0, ""}, "a file of that name",
                         "a new name: an existing file is never overwritten");
    }
    const fs::path folder = file.parent_path();
    if (!folder.empty() && !fs::is_directory(folder, error)) {
        throw InputError({file.string(), 0, ""}, "no folder " + folder.string(),
                         "a folder that exists");
    }
    Database database(file, Access::create);
    database.execute(fmt::format("PRAGMA application_id = {}", kApplicationId));
    database.execute("PRAGMA journal_mode = WAL");
    migrate(database, 0);
}

Database open_library(const fs::path &file, Access access) {
    check_is_file(file);
    Database database(file, access);
    check_version(database);
    return database;
}

} // namespace cospot::library
