#include "library/schema_check.h"

#include "library/migration.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <cctype>
#include <map>
#include <string>

namespace cospot::library {

namespace {

/// The statement that made it, by what it is and its name.
using Schema = std::map<std::string, std::string>;

/// Without blanks and quotes, which versions of SQLite set differently where a table is renamed.
std::string essential(const std::string &sql) {
    std::string text;
    for (const char c : sql) {
        if (std::isspace(static_cast<unsigned char>(c)) == 0 && c != '"') {
            text += c;
        }
    }
    return text;
}

Schema schema_of(const Database &database) {
    Statement query =
        database.prepare("SELECT type || ' ' || name, coalesce(sql, '') "
                         "FROM sqlite_schema WHERE name NOT LIKE 'sqlite!_%' ESCAPE '!'");
    Schema schema;
    while (query.step()) {
        schema.emplace(query.text(0), essential(query.text(1)));
    }
    return schema;
}

[[noreturn]] void refuse(const Database &database, const std::string &found) {
    throw InputError({database.file().string(), 0, ""}, found,
                     "a library as cospot makes it; restore a backup, and find out which program "
                     "changed this one");
}

} // namespace

void check_schema(const Database &database) {
    const Schema found = schema_of(database);
    Database made("", Access::create);
    apply_migrations(made, 0, format_of(database));
    Schema expected = schema_of(made);
    for (const auto &[name, sql] : found) {
        const auto known = expected.find(name);
        if (known == expected.end()) {
            refuse(database, "the " + name + ", which cospot did not make");
        }
        if (known->second != sql) {
            refuse(database, "the " + name + ", which is not as cospot makes it");
        }
        expected.erase(known);
    }
    if (!expected.empty()) {
        refuse(database, "no " + expected.begin()->first);
    }
}

} // namespace cospot::library
