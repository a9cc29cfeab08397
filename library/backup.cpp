#include "library/backup.h"

#include "library/journal.h"
#include "library/partial_file.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <string>
#include <system_error>

#include <fcntl.h>
#include <unistd.h>

namespace cospot::library {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const fs::path &file, int error) {
    throw DatabaseError(fmt::format("{}: the backup cannot be written ({})", file.string(),
                                    std::generic_category().message(error)));
}

void check_is_sound(const Database &copy) {
    Statement integrity = copy.prepare("PRAGMA integrity_check");
    const std::string verdict = integrity.step() ? integrity.text(0) : "no answer";
    if (verdict != "ok") {
        throw DatabaseError("the library is damaged, so that no sound backup can be made (" +
                            verdict + "); restore an older backup");
    }
    // The fits are derived: no record is lost with them.
    Statement references = copy.prepare("SELECT \"table\" FROM pragma_foreign_key_check "
                                        "WHERE \"table\" NOT IN ('fit', 'fit_part', "
                                        "'structure_features', 'prediction_fit', "
                                        "'prediction_system')");
    if (references.step()) {
        throw DatabaseError("the library is damaged, so that no sound backup can be made (rows of "
                            "the table " +
                            references.text(0) +
                            " refer to rows that are not there); restore an older backup");
    }
}

BackupSummary summary_of(const Database &copy) {
    Statement counts = copy.prepare(
        "SELECT count(*) FILTER (WHERE superseded_by IS NULL AND retired_change_id IS NULL), "
        "count(*), (SELECT count(*) FROM compound), (SELECT count(*) FROM system) "
        "FROM measurement");
    BackupSummary summary;
    if (counts.step()) {
        summary.values = counts.integer(0);
        summary.withdrawn = counts.integer(1) - counts.integer(0);
        summary.compounds = counts.integer(2);
        summary.systems = counts.integer(3);
    }
    return summary;
}

/// Waits until the file or folder is on the disk; file systems that cannot say so are believed.
void flush_to_disk(const fs::path &path) {
    const int descriptor = open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (descriptor >= 0) {
        const int code = fsync(descriptor);
        const int error = errno;
        close(descriptor);
        if (code != 0 && error != EINVAL && error != EROFS) {
            fail(path, error);
        }
    }
}

/// Who may not read the library may not read its backup either.
void narrow_permissions(const fs::path &from, const fs::path &to) {
    std::error_code ignored;
    const fs::perms shared = fs::status(from, ignored).permissions() & fs::status(to).permissions();
    fs::permissions(to, shared | fs::perms::owner_read | fs::perms::owner_write, ignored);
}

} // namespace

BackupSummary back_up(const Database &source, const fs::path &target) {
    check_name_is_free(target);
    const PartialFile partial(target);
    narrow_permissions(source.file(), partial.name());
    {
        Database copy(partial.name(), Access::write);
        source.copy_into(copy);
    }
    BackupSummary summary;
    {
        Database copy(partial.name(), Access::write);
        copy.execute("PRAGMA journal_mode = DELETE"); // that of an older library is another
        check_is_sound(copy);
        summary = summary_of(copy);
    }
    flush_to_disk(partial.name());
    summary.bytes = fs::file_size(partial.name());
    partial.publish();
    flush_to_disk(folder_of(target));
    return summary;
}

} // namespace cospot::library
