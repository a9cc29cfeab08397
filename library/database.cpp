#include "library/database.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <utility>

namespace cospot::library {

namespace {

constexpr int kLockPatience_ms = 10'000;

[[noreturn]] void fail(sqlite3 *connection, int code) {
    const char *file = connection != nullptr ? sqlite3_db_filename(connection, "main") : nullptr;
    const char *reason = connection != nullptr ? sqlite3_errmsg(connection) : sqlite3_errstr(code);
    const std::string place = file != nullptr && *file != '\0' ? fmt::format("{}: ", file) : "";
    switch (code & 0xFF) {
    case SQLITE_BUSY:
        throw DatabaseError(fmt::format("{}another program has been writing to this library for "
                                        "more than {} s; try again when it is done",
                                        place, kLockPatience_ms / 1000));
    case SQLITE_FULL:
        throw DatabaseError(place + "the disk is full; nothing of this change was stored. "
                                    "Free some space and run the command again");
    case SQLITE_READONLY:
        throw DatabaseError(place + "the library cannot be written (read-only file or folder)");
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        throw DatabaseError(place + "the file is damaged or no library (" + reason +
                            "); restore a backup");
    default:
        throw DatabaseError(place + reason);
    }
}

int open_flags(Access access) {
    switch (access) {
    case Access::read:
        return SQLITE_OPEN_READONLY;
    case Access::write:
        return SQLITE_OPEN_READWRITE;
    case Access::create:
        return SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
    }
    return 0;
}

} // namespace

void Statement::Finalize::operator()(sqlite3_stmt *statement) const noexcept {
    sqlite3_finalize(statement);
}

Statement::Statement(sqlite3 *connection, std::string_view sql) : connection_(connection) {
    sqlite3_stmt *statement = nullptr;
    check(sqlite3_prepare_v2(connection, sql.data(), static_cast<int>(sql.size()), &statement,
                             nullptr));
    statement_.reset(statement);
}

void Statement::check(int code) const {
    if (code != SQLITE_OK) {
        fail(connection_, code);
    }
}

Statement &Statement::bind(int parameter, std::int64_t value) {
    check(sqlite3_bind_int64(statement_.get(), parameter, value));
    return *this;
}

Statement &Statement::bind(int parameter, double value) {
    check(sqlite3_bind_double(statement_.get(), parameter, value));
    return *this;
}

Statement &Statement::bind(int parameter, std::string_view text) {
    // An empty view may hold a null pointer, which SQLite would take for NULL.
    check(sqlite3_bind_text(statement_.get(), parameter, text.empty() ? "" : text.data(),
                            static_cast<int>(text.size()), SQLITE_TRANSIENT));
    return *this;
}

Statement &Statement::bind(int parameter, std::optional<double> value) {
    return value ? bind(parameter, *value) : bind_null(parameter);
}

Statement &Statement::bind(int parameter, std::optional<std::int64_t> value) {
    return value ? bind(parameter, *value) : bind_null(parameter);
}

Statement &Statement::bind_null(int parameter) {
    check(sqlite3_bind_null(statement_.get(), parameter));
    return *this;
}

bool Statement::step() {
    const int code = sqlite3_step(statement_.get());
    if (code == SQLITE_ROW) {
        return true;
    }
    if (code != SQLITE_DONE) {
        sqlite3_reset(statement_.get());
        fail(connection_, code);
    }
    return false;
}

void Statement::run() {
    while (step()) {
    }
    reset();
}

void Statement::reset() {
    sqlite3_reset(statement_.get());
    sqlite3_clear_bindings(statement_.get());
}

std::int64_t Statement::integer(int column) const {
    return sqlite3_column_int64(statement_.get(), column);
}

double Statement::real(int column) const {
    return sqlite3_column_double(statement_.get(), column);
}

std::string Statement::text(int column) const {
    const unsigned char *bytes = sqlite3_column_text(statement_.get(), column);
    const int size = sqlite3_column_bytes(statement_.get(), column);
    return bytes == nullptr ? std::string() : std::string(bytes, bytes + size);
}

bool Statement::is_null(int column) const {
    return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
}

std::optional<double> Statement::optional_real(int column) const {
    return is_null(column) ? std::nullopt : std::optional(real(column));
}

std::optional<std::int64_t> Statement::optional_integer(int column) const {
    return is_null(column) ? std::nullopt : std::optional(integer(column));
}

void Database::Close::operator()(sqlite3 *connection) const noexcept {
    sqlite3_close_v2(connection);
}

Database::Database(const std::filesystem::path &file, Access access) : file_(file) {
    sqlite3 *connection = nullptr;
    const int code = sqlite3_open_v2(file.c_str(), &connection, open_flags(access), nullptr);
    connection_.reset(connection);
    if (code != SQLITE_OK) {
        throw DatabaseError(fmt::format("{}: the file cannot be opened ({})", file.string(),
                                        sqlite3_errmsg(connection)));
    }
    sqlite3_extended_result_codes(connection, 1);
    sqlite3_busy_timeout(connection, kLockPatience_ms);
    execute("PRAGMA foreign_keys = ON");
}

void Database::execute(const std::string &sql) {
    const int code = sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) {
        fail(connection_.get(), code);
    }
}

Statement Database::prepare(std::string_view sql) const {
    return Statement(connection_.get(), sql);
}

Statement &Database::cached(const char *sql) {
    const auto known = statements_.find(sql);
    if (known != statements_.end()) {
        known->second.reset();
        return known->second;
    }
    return statements_.emplace(sql, Statement(connection_.get(), sql)).first->second;
}

std::int64_t Database::last_insert_id() const {
    return sqlite3_last_insert_rowid(connection_.get());
}

Transaction::Transaction(Database &database) : database_(&database) {
    database_->execute("BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
    if (open_) {
        // A failed rollback leaves the journal, which SQLite rolls back at the next opening.
        sqlite3_exec(database_->connection(), "ROLLBACK", nullptr, nullptr, nullptr);
    }
}

void Transaction::commit() {
    database_->execute("COMMIT");
    open_ = false;
}

} // namespace cospot::library
