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

constexpr int kLockPatience_ms = 60'000;

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
    case SQLITE_IOERR:
        throw DatabaseError(place + "the disk fails or has no room (" + reason +
                            "); nothing of this change was stored. Free some space or check the "
                            "disk, and run the command again");
    case SQLITE_READONLY:
        throw DatabaseError(place + "the library cannot be written (read-only file or folder); get "
                                    "the right to write there, or copy it into a folder of yours");
    case SQLITE_CANTOPEN:
        throw DatabaseError(place + "the library, or the journal that SQLite keeps beside it, "
                                    "cannot be opened; copy the library (with its -wal file if "
                                    "there is one) into a folder that you can write");
    case SQLITE_INTERRUPT:
        throw Interrupted();
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        throw DatabaseError(place + "the file is damaged or no library (" + reason +
                            "); restore a backup");
    default:
        throw DatabaseError(place + reason);
    }
}

/// No change waits in the journal, and no process has the library open for writing: it would have
/// a journal, and the index of that (-shm), which is smaller than its first part where there was no
/// room to make it.
bool is_at_rest(const std::filesystem::path &file) {
    constexpr std::uintmax_t first_part = 32768; // https://sqlite.org/walformat.html, section 2
    std::error_code error;
    if (!std::filesystem::exists(journal_of(file), error)) {
        return true;
    }
    const auto size = std::filesystem::file_size(file.string() + "-shm", error);
    return !has_journalled_changes(file) && (error || size < first_part);
}

/// A journal cannot be made or used here: read-only media, a full disk.
bool has_no_place_for_journal(int code) {
    return code == SQLITE_CANTOPEN || code == SQLITE_READONLY || code == SQLITE_IOERR ||
           code == SQLITE_FULL;
}

/// The name by which SQLite opens a file that nobody changes: without locks or a journal.
std::string immutable_name(const std::filesystem::path &file) {
    std::string name = "file://";
    for (const char c : std::filesystem::absolute(file).string()) {
        if (c == '%' || c == '?' || c == '#') {
            name += fmt::format("%{:02X}", static_cast<int>(c));
        } else {
            name += c;
        }
    }
    return name + "?immutable=1";
}

/// A name that SQLite takes as it is: Debian's would read one that begins with "file:" as a URI.
std::string plain_name(const std::filesystem::path &file) {
    return file.empty() ? "" : std::filesystem::absolute(file).string();
}

/// SQLite asks now and then whether to go on.
int stops_now(void * /*nothing*/) {
    return is_interrupted() ? 1 : 0;
}

sqlite3 *open_connection(const std::string &name, int flags) {
    constexpr int steps_between_questions = 1000;
    sqlite3 *connection = nullptr;
    // Without SQLite's own mutexes: a connection belongs to one thread.
    const int code =
        sqlite3_open_v2(name.c_str(), &connection, flags | SQLITE_OPEN_NOMUTEX, nullptr);
    if (code != SQLITE_OK) {
        const std::string reason =
            connection != nullptr ? sqlite3_errmsg(connection) : sqlite3_errstr(code);
        sqlite3_close_v2(connection);
        throw DatabaseError(fmt::format(
            "{}: the file cannot be opened ({}); get the right to use it", name, reason));
    }
    sqlite3_extended_result_codes(connection, 1);
    sqlite3_busy_timeout(connection, kLockPatience_ms);
    sqlite3_progress_handler(connection, steps_between_questions, stops_now, nullptr);
    return connection;
}

/// Reads the head of the file; the first read shows whether SQLite can make its journal.
int try_to_read(sqlite3 *connection) {
    return sqlite3_exec(connection, "PRAGMA schema_version", nullptr, nullptr, nullptr) & 0xFF;
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

std::optional<std::int64_t> Statement::optional_integer(int column) const {
    return is_null(column) ? std::nullopt : std::optional(integer(column));
}

void Database::Close::operator()(sqlite3 *connection) const noexcept {
    sqlite3_close_v2(connection);
    std::error_code error;
    if (journal.empty() || !std::filesystem::exists(journal, error)) {
        return;
    }
    // A connection that only reads leaves its empty journal; the last one that may write clears it.
    sqlite3 *cleaner = nullptr;
    if (sqlite3_open_v2(file.c_str(), &cleaner, SQLITE_OPEN_READWRITE, nullptr) == SQLITE_OK) {
        try_to_read(cleaner);
    }
    sqlite3_close_v2(cleaner);
}

Database::Connection Database::connect(const std::filesystem::path &file, Access access) {
    switch (access) {
    case Access::read:
        return connect_for_reading(file);
    case Access::write:
        return Connection(open_connection(plain_name(file), SQLITE_OPEN_READWRITE));
    case Access::create:
        return Connection(
            open_connection(plain_name(file), SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE));
    }
    return nullptr;
}

Database::Connection Database::connect_for_reading(const std::filesystem::path &name) {
    const std::filesystem::path file = behind_links(std::filesystem::absolute(name));
    const std::filesystem::path journal = journal_of(file);
    std::error_code error;
    const bool had_journal = std::filesystem::exists(journal, error);
    sqlite3 *plain = open_connection(file.string(), SQLITE_OPEN_READONLY);
    Connection connection(plain, had_journal ? Close{} : Close{journal, file});
    const int code = try_to_read(plain);
    if (has_no_place_for_journal(code) && is_at_rest(file)) {
        return Connection(
            open_connection(immutable_name(file), SQLITE_OPEN_READONLY | SQLITE_OPEN_URI));
    }
    return connection;
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
}

void Database::copy_into(Database &target) const {
    sqlite3_backup *backup = sqlite3_backup_init(target.connection(), "main", connection(), "main");
    if (backup == nullptr) {
        fail(target.connection(), sqlite3_errcode(target.connection()));
    }
    // All pages in one step: one read transaction, so that no writer makes the copy start again.
    const int step = sqlite3_backup_step(backup, -1);
    const int code = sqlite3_backup_finish(backup);
    if (step != SQLITE_DONE) {
        fail(target.connection(), code != SQLITE_OK ? code : step);
    }
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

namespace {

void check_is_in_place(const Database &database) {
    if (!database.is_in_place()) {
        throw DatabaseError(database.file().string() +
                            ": the library was removed or replaced while it was being changed; "
                            "this change is lost. Restore the library and run the command again");
    }
}

} // namespace

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
    // Before too: what is committed stays in the journal, and the file that took the library's name
    // would take it for its own.
    check_is_in_place(*database_);
    database_->execute("COMMIT");
    open_ = false;
    check_is_in_place(*database_);
}

} // namespace cospot::library
