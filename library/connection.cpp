#include "library/connection.h"

#include "library/database.h"
#include "library/journal.h"
#include "library/resting_copy.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <string>

namespace cospot::library {

namespace {

namespace fs = std::filesystem;

/// A name that SQLite takes as it is: Debian's would read one that begins with "file:" as a URI.
std::string plain_name(const fs::path &file) {
    return file.empty() ? "" : fs::absolute(file).string();
}

/// The name by which SQLite opens a library without making an index of its journal.
std::string name_without_new_index(const fs::path &file) {
    std::string name = "file://";
    for (const char c : file.string()) {
        if (c == '%' || c == '?' || c == '#') {
            name += fmt::format("%{:02X}", static_cast<int>(c));
        } else {
            name += c;
        }
    }
    return name + "?readonly_shm=1";
}

int open_without_new_journal(sqlite3_vfs *system, const char *name, sqlite3_file *file, int flags,
                             int *flags_had) {
    const bool is_journal = (flags & SQLITE_OPEN_WAL) != 0;
    return sqlite3_vfs_find(nullptr)->xOpen(
        system, name, file, is_journal ? flags & ~SQLITE_OPEN_CREATE : flags, flags_had);
}

/// SQLite's usual way to files, but that a journal is opened only where there is one.
const char *way_without_new_journal() {
    static sqlite3_vfs way = [] {
        sqlite3_vfs usual = *sqlite3_vfs_find(nullptr);
        usual.pNext = nullptr;
        usual.zName = "cospot-no-new-journal";
        usual.xOpen = open_without_new_journal;
        return usual;
    }();
    static const int registered = sqlite3_vfs_register(&way, 0);
    return registered == SQLITE_OK ? way.zName : nullptr;
}

/// SQLite asks now and then whether to go on.
int stops_now(void * /*nothing*/) {
    return is_interrupted() ? 1 : 0;
}

sqlite3 *open_connection(const std::string &name, int flags, const char *way = nullptr) {
    constexpr int steps_between_questions = 1000;
    sqlite3 *connection = nullptr;
    // Without SQLite's own mutexes: a connection belongs to one thread.
    const int code = sqlite3_open_v2(name.c_str(), &connection, flags | SQLITE_OPEN_NOMUTEX, way);
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

/// Reads the head of the file; the first read shows whether SQLite can use or make its journal.
int try_to_read(sqlite3 *connection) {
    return sqlite3_exec(connection, "PRAGMA schema_version", nullptr, nullptr, nullptr) & 0xFF;
}

/// A journal cannot be made or used here: no right to, read-only media, a full disk.
bool has_no_place_for_journal(int code) {
    return code == SQLITE_CANTOPEN || code == SQLITE_READONLY || code == SQLITE_IOERR ||
           code == SQLITE_FULL;
}

Connection connect_as_reader(const fs::path &file) {
    if (is_writable(file)) {
        CloseConnection close{file, has_journalled_changes(file),
                              std::make_unique<ClearedBySignal>(file)};
        return {open_connection(file.string(), SQLITE_OPEN_READONLY), std::move(close)};
    }
    return Connection(open_connection(name_without_new_index(file),
                                      SQLITE_OPEN_READONLY | SQLITE_OPEN_URI,
                                      way_without_new_journal()));
}

} // namespace

void CloseConnection::operator()(sqlite3 *connection) const noexcept {
    sqlite3_close_v2(connection);
    if (file.empty()) {
        return;
    }
    clear_idle_journal(file); // a connection that only reads leaves it
    if (!had_changes && has_journalled_changes(file)) {
        // Those of a writer who ended before: the last one that may write puts them in order.
        sqlite3 *last = nullptr;
        if (sqlite3_open_v2(file.c_str(), &last, SQLITE_OPEN_READWRITE, nullptr) == SQLITE_OK) {
            try_to_read(last);
        }
        sqlite3_close_v2(last);
    }
}

Connection connect_for_writing(const fs::path &file, bool may_create) {
    if (!file.empty()) {
        clear_idle_journal(behind_links(fs::absolute(file))); // another user's would be in the way
    }
    return Connection(open_connection(plain_name(file), SQLITE_OPEN_READWRITE |
                                                            (may_create ? SQLITE_OPEN_CREATE : 0)));
}

Connection connect_for_reading(const fs::path &name) {
    const fs::path file = behind_links(fs::absolute(name));
    Connection connection = connect_as_reader(file);
    // Between two attempts a writer may have come with its journal, or left with it.
    constexpr int attempts = 10;
    for (int i = 0; i < attempts && has_no_place_for_journal(try_to_read(connection.get())); ++i) {
        Connection copy(open_connection("", SQLITE_OPEN_READWRITE));
        if (copy_at_rest(file, copy.get())) {
            return copy;
        }
    }
    return connection;
}

} // namespace cospot::library
