#include "library/connection.h"

#include "library/database.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <string>

namespace cospot::library {

namespace {

/// A name that SQLite takes as it is: Debian's would read one that begins with "file:" as a URI.
std::string plain_name(const std::filesystem::path &file) {
    return file.empty() ? "" : std::filesystem::absolute(file).string();
}

/// SQLite asks now and then whether to stop.
int stops_now(void * /*nothing*/) {
    return is_interrupted() ? 1 : 0;
}

/// SQLite asks whether to try again for a lock that another process holds.
int tries_again(void * /*nothing*/, int tries_before) {
    constexpr int pause_ms = 10;
    if (is_interrupted() || tries_before >= kLockPatience_ms / pause_ms) {
        return 0;
    }
    sqlite3_sleep(pause_ms);
    return 1;
}

} // namespace

void CloseConnection::operator()(sqlite3 *connection) const noexcept {
    sqlite3_close_v2(connection);
}

Connection connect(const std::filesystem::path &file, Access access) {
    constexpr int steps_between_questions = 1000;
    // Without SQLite's own mutexes: a connection belongs to one thread.
    const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX |
                      (access == Access::create ? SQLITE_OPEN_CREATE : 0);
    const std::string name = plain_name(file);
    sqlite3 *opened = nullptr;
    const int code = sqlite3_open_v2(name.c_str(), &opened, flags, nullptr);
    Connection connection(opened);
    if (code != SQLITE_OK) {
        const std::string reason =
            opened != nullptr ? sqlite3_errmsg(opened) : sqlite3_errstr(code);
        throw DatabaseError(fmt::format(
            "{}: the file cannot be opened ({}); get the right to use it", name, reason));
    }
    sqlite3_extended_result_codes(opened, 1);
    sqlite3_busy_handler(opened, tries_again, nullptr);
    sqlite3_progress_handler(opened, steps_between_questions, stops_now, nullptr);
    return connection;
}

} // namespace cospot::library
