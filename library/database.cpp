#include "library/database.h"

#include "library/damage.h"
#include "library/journal.h"

#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>

#include <cmath>
#include <system_error>

namespace cospot::library {

namespace {

constexpr const char *kWasReplaced =
    "the library was removed or replaced while it was being changed; this change is lost. Restore "
    "the library and run the command again";

/// The library cannot be written, or its journal not opened.
std::string without_access(const std::filesystem::path &file, const char *otherwise) {
    std::string names;
    for (const std::filesystem::path &name : files_in_the_way(behind_links(file))) {
        names += (names.empty() ? "" : " and ") + name.string();
    }
    if (names.empty()) {
        return otherwise;
    }
    return "another user's " + names +
           " keeps you from writing the library. Try again when their command is done; if that "
           "does not help, ask them to run a command that writes. Never delete it: it may hold "
           "what the library needs";
}

std::string not_writable(const std::filesystem::path &file, int code) {
    switch (code) {
    case SQLITE_READONLY_DBMOVED:
        return kWasReplaced;
    case SQLITE_READONLY_ROLLBACK:
        return "a change of the library was cut off, and you may not undo it; ask somebody who may "
               "write the library to run any command on it, e.g. list, or copy it with its "
               "-journal file into a folder of yours";
    default:
        return without_access(file, "the library cannot be written (read-only file or folder); get "
                                    "the right to write there, or copy it into a folder of yours");
    }
}

[[noreturn]] void fail(const std::filesystem::path &file, sqlite3 *connection, int code) {
    const std::string reason = sqlite3_errmsg(connection);
    const std::string place = file.empty() ? "" : file.string() + ": ";
    switch (code & 0xFF) {
    case SQLITE_BUSY:
        if (is_interrupted()) {
            throw Interrupted();
        }
        throw DatabaseInUse(fmt::format("{}another program has been using this library for more "
                                        "than {} s; try again when it is done",
                                        place, kLockPatience_ms / 1000));
    case SQLITE_FULL:
        throw DatabaseError(place + "the disk is full; nothing of this change was stored. "
                                    "Free some space and run the command again");
    case SQLITE_IOERR:
        throw DatabaseError(place + "the disk fails or has no room (" + reason +
                            "); nothing of this change was stored. Free some space or check the "
                            "disk, and run the command again");
    case SQLITE_READONLY:
        throw DatabaseError(place + not_writable(file, code));
    case SQLITE_CANTOPEN:
        throw DatabaseError(
            place + without_access(file, "the library, or the journal that SQLite keeps beside "
                                         "it, cannot be opened; copy the library (with its -wal "
                                         "file if there is one) into a folder that you can write"));
    case SQLITE_INTERRUPT:
        throw Interrupted();
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        throw DatabaseError(place + "the file is damaged or no library (" + reason +
                            "); restore a backup");
    case SQLITE_ERROR: // the program's own statements go with every library that it made
    case SQLITE_CONSTRAINT:
        throw DatabaseError(place + "the library is damaged or of a mixed format (" + reason +
                            "); restore a backup");
    default:
        throw DatabaseError(place + reason);
    }
}

} // namespace

void Statement::Finalize::operator()(sqlite3_stmt *statement) const noexcept {
    sqlite3_finalize(statement);
}

Statement::Statement(const Database &database, std::string_view sql)
    : connection_(database.connection()), file_(database.file()) {
    sqlite3_stmt *statement = nullptr;
    check(sqlite3_prepare_v2(connection_, sql.data(), static_cast<int>(sql.size()), &statement,
                             nullptr));
    statement_.reset(statement);
}

void Statement::check(int code) const {
    if (code != SQLITE_OK) {
        fail(file_, connection_, code);
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

Statement &Statement::bind_null(int parameter) {
    check(sqlite3_bind_null(statement_.get(), parameter));
    return *this;
}

Statement &Statement::bind_blob(int parameter, std::string_view bytes) {
    check(sqlite3_bind_blob64(statement_.get(), parameter, bytes.data(), bytes.size(),
                              SQLITE_TRANSIENT));
    return *this;
}

bool Statement::step() {
    const int code = sqlite3_step(statement_.get());
    if (code == SQLITE_ROW) {
        return true;
    }
    if (code != SQLITE_DONE) {
        sqlite3_reset(statement_.get());
        fail(file_, connection_, code);
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
    const double value = sqlite3_column_double(statement_.get(), column);
    if (!std::isfinite(value)) {
        report_damage(sqlite3_db_filename(connection_, "main"));
    }
    return value;
}

std::string Statement::text(int column) const {
    const unsigned char *bytes = sqlite3_column_text(statement_.get(), column);
    const int size = sqlite3_column_bytes(statement_.get(), column);
    return bytes == nullptr ? std::string() : std::string(bytes, bytes + size);
}

std::string_view Statement::blob(int column) const {
    const void *bytes = sqlite3_column_blob(statement_.get(), column);
    const int size = sqlite3_column_bytes(statement_.get(), column);
    return bytes == nullptr
               ? std::string_view()
               : std::string_view(static_cast<const char *>(bytes), static_cast<std::size_t>(size));
}

bool Statement::is_null(int column) const {
    return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
}

std::optional<double> Statement::optional_real(int column) const {
    return is_null(column) ? std::nullopt : std::optional(real(column));
}

/// Tells a file from another one that takes its name.
std::uint64_t Database::identity_of(const std::filesystem::path &file) {
    struct stat status {};
    return stat(file.c_str(), &status) == 0 ? status.st_ino : 0;
}

bool Database::is_in_place() const {
    return identity_of(file_) == identity_;
}

Database::Database(const std::filesystem::path &file, Access access)
    : file_(file), connection_(connect(file, access)), identity_(identity_of(file)) {
    execute("PRAGMA foreign_keys = ON; PRAGMA cache_size = -32768"); // 32 MiB
    if (access == Access::read) {
        execute("PRAGMA query_only = ON");
    }
}

void Database::copy_into(Database &target) const {
    sqlite3_backup *backup = sqlite3_backup_init(target.connection(), "main", connection(), "main");
    if (backup == nullptr) {
        fail(target.file(), target.connection(), sqlite3_errcode(target.connection()));
    }
    // All pages in one step: one read transaction, so that no writer makes the copy start again.
    const int step = sqlite3_backup_step(backup, -1);
    const int code = sqlite3_backup_finish(backup);
    if (step != SQLITE_DONE) {
        fail(target.file(), target.connection(), code != SQLITE_OK ? code : step);
    }
}

void Database::execute(const std::string &sql) {
    const int code = sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) {
        fail(file_, connection_.get(), code);
    }
}

Statement Database::prepare(std::string_view sql) const {
    return Statement(*this, sql);
}

Statement &Database::cached(const char *sql) {
    const auto known = statements_.find(sql);
    if (known != statements_.end()) {
        known->second.reset();
        return known->second;
    }
    return statements_.emplace(sql, Statement(*this, sql)).first->second;
}

std::int64_t Database::last_row() const {
    return sqlite3_last_insert_rowid(connection_.get());
}

namespace {

void check_is_in_place(const Database &database) {
    if (!database.is_in_place()) {
        throw DatabaseError(database.file().string() + ": " + kWasReplaced);
    }
}

} // namespace

Transaction::Transaction(Database &database) : database_(&database) {
    // A large change waits in memory for its end: in the file it would keep readers out until then.
    database_->execute("PRAGMA cache_spill = OFF; BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
    if (open_) {
        // A failed rollback leaves the journal, which SQLite rolls back at the next opening.
        sqlite3_exec(database_->connection(), "ROLLBACK", nullptr, nullptr, nullptr);
    }
}

void Transaction::commit() {
    commit_quietly();
    wait_until_said();
}

void Transaction::commit_quietly() {
    // Before too: a library that was moved must not get a change that is reported as lost.
    check_is_in_place(*database_);
    database_->execute("COMMIT");
    open_ = false;
    check_is_in_place(*database_);
}

} // namespace cospot::library
