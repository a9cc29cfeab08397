#include "library/schema_check.h"

#include "library/migration.h"
#include "library/schema.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <cctype>
#include <map>
#include <string>

namespace cospot::library {

namespace {

/// What a library is made of at one moment.
struct Schema {
    int format = 0;
    /// The statement that made it, by what it is and its name.
    std::map<std::string, std::string> statements{};
};

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

/// In one statement: another process may be upgrading the library.
Schema schema_of(const Database &database) {
    Statement query =
        database.prepare("SELECT user_version, type || ' ' || name, coalesce(sql, '') "
                         "FROM pragma_user_version LEFT JOIN sqlite_schema "
                         "ON name NOT LIKE 'sqlite!_%' ESCAPE '!'");
    Schema schema;
    while (query.step()) {
        schema.format = static_cast<int>(query.integer(0));
        if (!query.is_null(1)) {
            schema.statements.emplace(query.text(1), essential(query.text(2)));
        }
    }
    return schema;
}

std::string text_of(const Schema &schema) {
    std::string text;
    for (const auto &[name, sql] : schema.statements) {
        text += name + ' ' + sql + '\n';
    }
    return text;
}

[[noreturn]] void refuse(const Database &database, const std::string &found) {
    throw InputError({database.file().string(), 0, ""}, found,
                     "a library as cospot makes it; restore a backup, and find out which program "
                     "changed this one");
}

} // namespace

std::string schema_text(const Database &database) {
    return text_of(schema_of(database));
}

void check_schema(const Database &database) {
    const Schema found = schema_of(database);
    if (found.format == schema_version() && text_of(found) == kCompleteSchema) {
        return;
    }
    // What differs is said; another version of SQLite may also write the statements otherwise.
    Database made("", Access::create);
    apply_migrations(made, 0, found.format);
    auto expected = schema_of(made).statements;
    for (const auto &[name, sql] : found.statements) {
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
