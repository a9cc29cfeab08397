#include "library/connection.h"

#include "library/database.h"
#include "library/journal.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <fstream>
#include <string>
#include <string_view>
#include <system_error>

namespace cospot::library {

namespace {

/// A name that SQLite takes as it is: Debian's would read one that begins with "file:" as a URI.
std::string plain_name(const std::filesystem::path &file) {
    return file.empty() ? "" : std::filesystem::absolute(file).string();
}

/// No library is changed together with other files. A journal that names a further file, at its end
/// (readSuperJournal in SQLite's pager.c), is foreign: SQLite would delete that file.
void check_journal_is_ours(const std::filesystem::path &library) {
    constexpr std::string_view end_mark("\xD9\xD5\x05\xF9\x20\xA1\x63\xD7", 8);
    const std::filesystem::path journal = behind_links(library).string() + "-journal";
    std::error_code error;
    if (!std::filesystem::is_regular_file(journal, error)) {
        return;
    }
    std::ifstream in(journal, std::ios::binary);
    std::string end(end_mark.size(), ' ');
    in.seekg(-static_cast<std::streamoff>(end.size()), std::ios::end);
    if (in.read(end.data(), static_cast<std::streamsize>(end.size())) && end == end_mark) {
        throw DatabaseError(
            fmt::format("{}: the journal {} was not made by cospot: it names a further "
                        "file, which would be deleted; find out who made it",
                        library.string(), journal.string()));
    }
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
    if (!name.empty()) {
        check_journal_is_ours(name);
    }
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
