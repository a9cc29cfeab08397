#pragma once

#include "document/json.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace cospot::desk {

/// A change of a sheet that was made meanwhile by another page: nothing was stored.
struct ChangedMeanwhile {
    std::int64_t revision = 0; ///< that the sheet has now
};

/// The sheets of a library: what was entered on pages, one folder a sheet, so that it outlives
/// page, browser and program. A folder holds `sheet.json` (what was entered, as the page wrote it,
/// beside what the store keeps: id, kind, title, state, revision, days), the files that came with
/// it, and `page.html` once it is kept. Every file is written whole or not at all.
class SheetStore {
public:
    /// Creates the folder where it is missing. Throws DatabaseError where that fails.
    explicit SheetStore(std::filesystem::path folder);

    /// A new sheet with what was entered; returns it with id and revision.
    [[nodiscard]] Json create(const Json &entered) const;
    /// The sheet; nothing where there is none.
    [[nodiscard]] std::optional<Json> read(const std::string &id) const;
    /// Stores what was entered in place of what `revision` held; returns the sheet, or the
    /// revision that came before. Throws InputError where there is no such sheet.
    [[nodiscard]] std::variant<Json, ChangedMeanwhile>
    write(const std::string &id, const Json &entered, std::int64_t revision) const;
    /// Moves the sheet to the folder `removed` beside the others; nothing is destroyed.
    void remove(const std::string &id) const;
    /// All sheets without what was entered, the last changed first; only those in whose text all
    /// words of `words` occur.
    [[nodiscard]] Json list(const std::string &words) const;

    /// The folder of a sheet. Throws InputError where there is no such sheet.
    [[nodiscard]] std::filesystem::path folder_of(const std::string &id) const;
    /// Where a file of a sheet lies or will lie. Throws InputError for a name that is not a plain
    /// file name: letters, digits, blanks and - _ . only, not led by a dot, or of the store itself.
    [[nodiscard]] std::filesystem::path file_of(const std::string &id,
                                                const std::string &name) const;

private:
    std::filesystem::path folder_;
};

/// Whether a sheet's file may be called so.
[[nodiscard]] bool is_file_name(std::string_view name);

} // namespace cospot::desk
