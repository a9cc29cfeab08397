#include "library/library_file.h"

#include "library/journal.h"
#include "library/partial_file.h"
#include "library/schema_check.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <fstream>
#include <string>
#include <string_view>
#include <system_error>

#include <fcntl.h>
#include <unistd.h>

namespace cospot::library {

namespace {

namespace fs = std::filesystem;

// Closing a file drops all of this process's locks on it (POSIX), SQLite's too: this may only look
// at a library that the process has not open.
std::string head_of(const fs::path &file) {
    std::string head(20, ' ');
    std::ifstream in(file, std::ios::binary);
    in.read(head.data(), static_cast<std::streamsize>(head.size()));
    return head;
}

/// Who may only read a library with a write-ahead log reads it where the log and its index are
/// there already. Those that they would make themselves keep its owner from writing.
void check_log_is_no_trouble(const fs::path &file, const std::string &head) {
    constexpr std::size_t read_version = 19; // https://sqlite.org/fileformat2.html, section 1.3.3
    std::error_code error;
    if (head[read_version] == 2 && !is_writable(file) &&
        (is_writable(folder_of(file)) || !fs::exists(write_ahead_log_index_of(file), error))) {
        throw InputError({file.string(), 0, ""},
                         "a library in the form of an older cospot, which only those who may write "
                         "it can read",
                         "the new form: ask somebody who may write it to learn something with this "
                         "cospot, or copy the library (with its -wal file if there is one) into a "
                         "folder that you can write");
    }
}

void check_is_file(const fs::path &file) {
    std::error_code error;
    if (!fs::exists(file, error)) {
        throw InputError({file.string(), 0, ""}, "no such file",
                         "a library (create one with: cospot --library FILE init)");
    }
    if (!fs::is_regular_file(file, error)) {
        throw InputError({file.string(), 0, ""}, "a folder, a device or a pipe",
                         "a file made by: cospot --library FILE init");
    }
    if (faccessat(AT_FDCWD, file.c_str(), R_OK, AT_EACCESS) != 0) {
        throw InputError({file.string(), 0, ""}, "a file that you may not read",
                         "the right to read it (ask its owner)");
    }
    const std::string head = head_of(file);
    if (!head.starts_with(std::string_view("SQLite format 3\0", 16))) {
        throw InputError({file.string(), 0, ""}, "a file that is no retention library",
                         "a file made by: cospot --library FILE init");
    }
    check_log_is_no_trouble(behind_links(file), head);
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

/// SQLite would fill a last page that was cut short with zeros, and values with it.
void check_is_whole(const Database &database) {
    Statement query =
        database.prepare("SELECT page_count * page_size FROM pragma_page_count, pragma_page_size");
    const std::int64_t expected = query.step() ? query.integer(0) : 0;
    // In this order: what waits in a write-ahead log may be in the file a moment later, never the
    // reverse.
    const fs::path file = behind_links(database.file());
    std::error_code error;
    if (const auto waiting = fs::file_size(write_ahead_log_of(file), error);
        !error && waiting > 0) {
        return;
    }
    const auto size = static_cast<std::int64_t>(fs::file_size(file, error));
    if (!error && size < expected) {
        throw InputError({database.file().string(), 0, ""},
                         fmt::format("a library of which {} of {} bytes are there", size, expected),
                         "a whole library; restore a backup");
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
        transaction.commit_quietly();
    }
    partial.publish();
}

Database open_unchanged(const fs::path &file) {
    check_is_file(file);
    Database database(file, Access::read);
    check_version(database);
    check_schema(database);
    check_is_whole(database);
    return database;
}

Database open_library(const fs::path &file, Access access, const Notice &notice) {
    bool is_old = false;
    bool has_log = false;
    {
        Database reader = open_unchanged(file);
        is_old = format_of(reader) < schema_version();
        has_log = has_write_ahead_log(reader);
        if (!is_old && access == Access::read) {
            return reader;
        }
    }
    if (access == Access::write) {
        clear_leftovers(folder_of(behind_links(file)));
    }
    if (is_old) {
        upgrade_library(file, notice);
    } else if (has_log) {
        leave_write_ahead_log(file, notice);
    }
    return Database(file, access);
}

} // namespace cospot::library
