#include "library/backup.h"
#include "options/command.h"
#include "library/library_file.h"
#include "options/options.h"

#include <fmt/ostream.h>
#include <nlohmann/json.hpp>

#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

void print_text(const std::string &file, const library::BackupSummary &summary, std::ostream &out) {
    fmt::print(out, "backup:    {}, checked\n", file);
    fmt::print(out, "size:      {} bytes\n", summary.bytes);
    fmt::print(out, "values:    {}, and {} retired or superseded\n", summary.values,
               summary.withdrawn);
    fmt::print(out, "compounds: {}\n", summary.compounds);
    fmt::print(out, "systems:   {}\n", summary.systems);
}

void print_json(const std::string &file, const library::BackupSummary &summary, std::ostream &out) {
    const nlohmann::ordered_json json{{"backup", file},
                                      {"bytes", summary.bytes},
                                      {"values", summary.values},
                                      {"withdrawn", summary.withdrawn},
                                      {"compounds", summary.compounds},
                                      {"systems", summary.systems}};
    out << json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace) << '\n';
}

} // namespace

int run_backup(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] backup FILE",
        "Copies the library into the new file FILE, as it is at one moment; others may go on\n"
        "using it. The copy is a library itself, and is checked before it gets its name. To\n"
        "restore it while no cospot is running, remove the old library and the -journal file\n"
        "beside it (-wal and -shm, where an older cospot wrote it), if there is one; then copy\n"
        "the backup to its place. Keep backups on another disk.");
    options.positional("file", 1, "the backup");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    if (!options.has("file")) {
        throw InputError({"command line", 0, ""}, "no file", "a FILE for the backup");
    }
    const std::string file = options.get<std::vector<std::string>>("file").front();
    // As it is: a backup before an upgrade keeps the old format.
    const library::Database database = library::open_unchanged(invocation.library);
    const library::BackupSummary summary = library::back_up(database, file);
    if (invocation.json) {
        print_json(file, summary, invocation.out);
    } else {
        print_text(file, summary, invocation.out);
    }
    return kDone;
}

} // namespace cospot
