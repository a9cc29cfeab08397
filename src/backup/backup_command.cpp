#include "document/cells.h"
#include "library/backup.h"
#include "library/library_file.h"
#include "options/command.h"
#include "options/options.h"
#include "report/presentation.h"

#include <ostream>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

Document backup_document(const std::string &file, const library::BackupSummary &summary) {
    Table table{.label = "What the backup holds", .columns = {{""}, {"", true}}};
    const auto add = [&](const char *what, std::int64_t count) {
        table.rows.push_back({{{what}, count_cell(static_cast<std::size_t>(count))}});
    };
    add("Values", summary.values);
    add("Retired or superseded", summary.withdrawn);
    add("Compounds", summary.compounds);
    add("Systems", summary.systems);
    add("Size in bytes", static_cast<std::int64_t>(summary.bytes));
    Document document{.title = "Backup"};
    document.blocks.emplace_back(Paragraph{"Written to " + file + " and checked."});
    document.blocks.emplace_back(std::move(table));
    return document;
}

Json backup_json(const std::string &file, const library::BackupSummary &summary) {
    return {{"backup", file},
            {"bytes", summary.bytes},
            {"values", summary.values},
            {"withdrawn", summary.withdrawn},
            {"compounds", summary.compounds},
            {"systems", summary.systems}};
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
        throw bad_usage("no file", "a FILE for the backup");
    }
    const std::string file = options.get<std::vector<std::string>>("file").front();
    // As it is: a backup before an upgrade keeps the old format.
    const library::Database database = library::open_unchanged(invocation.library);
    const library::BackupSummary summary = library::back_up(database, file);
    present(
        invocation, options, [&] { return backup_json(file, summary); },
        [&] { return backup_document(file, summary); });
    return kDone;
}

} // namespace cospot
