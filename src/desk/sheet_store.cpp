#include "desk/sheet_store.h"

#include "library/partial_file.h"
#include "shared/date.h"
#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <sstream>
#include <utility>

namespace cospot::desk {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kLongestName = 120;
constexpr const char *kEntered = "sheet.json";
/// Fields that the store sets itself, whatever a page says.
constexpr const char *kOwnFields[] = {"id", "revision", "created", "changed"};

InputError no_such_sheet(const std::string &id) {
    return InputError({"sheets", 0, ""}, "no sheet " + in_quotes(id), "the id of a sheet");
}

bool is_id(std::string_view id) {
    return id.size() >= 3 && id.size() <= 32 &&
           std::all_of(id.begin(), id.end(), [](char c) { return c == '-' || is_digit(c); });
}

std::optional<Json> read_json(const fs::path &file) {
    std::ifstream in(file, std::ios::binary);
    if (!in) {
        return std::nullopt;
    }
    Json json = Json::parse(in, nullptr, false);
    return json.is_discarded() ? std::nullopt : std::optional(std::move(json));
}

void write_json(const fs::path &file, const Json &json) {
    library::write_file(file, json_line(json) + '\n', library::ExistingFile::replaced);
}

/// The sheet as stored: the store's own fields first.
Json stored_sheet(const std::string &id, std::int64_t revision, const std::string &created,
                  const Json &entered) {
    Json sheet = {{"id", id}, {"revision", revision}, {"created", created}, {"changed", utc_now()}};
    for (const auto &[name, value] : entered.items()) {
        if (std::find(std::begin(kOwnFields), std::end(kOwnFields), name) == std::end(kOwnFields)) {
            sheet[name] = value;
        }
    }
    return sheet;
}

bool has_all_words(const std::string &text, const std::string &words) {
    std::istringstream in(lower_ascii(words));
    for (std::string word; in >> word;) {
        if (text.find(word) == std::string::npos) {
            return false;
        }
    }
    return true;
}

} // namespace

bool is_file_name(std::string_view name) {
    const auto is_plain = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || is_digit(c) || c == ' ' ||
               c == '-' || c == '_' || c == '.';
    };
    return !name.empty() && name.size() <= kLongestName && name.front() != '.' &&
           name.front() != '-' && name.front() != ' ' && name != kEntered && name != "page.html" &&
           std::all_of(name.begin(), name.end(), is_plain);
}

SheetStore::SheetStore(fs::path folder) : folder_(std::move(folder)) {
    std::error_code error;
    fs::create_directories(folder_, error);
    if (error) {
        throw InputError({folder_.string(), 0, ""},
                         "a folder that cannot be made: " + error.message(),
                         "a place for the sheets beside the library");
    }
    fs::permissions(folder_, fs::perms::owner_all, error);
}

Json SheetStore::create(const Json &entered) const {
    const std::string day = utc_now().substr(0, 10);
    for (int number = 1;; ++number) {
        const std::string id = fmt::format("{}-{}", day, number);
        std::error_code error;
        if (fs::create_directory(folder_ / id, error)) { // false where another one was quicker
            const Json sheet = stored_sheet(id, 1, utc_now(), entered);
            write_json(folder_ / id / kEntered, sheet);
            return sheet;
        }
        if (error) {
            throw InputError({(folder_ / id).string(), 0, ""}, error.message(),
                             "room and rights for a new sheet");
        }
    }
}

std::optional<Json> SheetStore::read(const std::string &id) const {
    return is_id(id) ? read_json(folder_ / id / kEntered) : std::nullopt;
}

std::variant<Json, ChangedMeanwhile> SheetStore::write(const std::string &id, const Json &entered,
                                                       std::int64_t revision) const {
    const auto before = read(id);
    if (!before) {
        throw no_such_sheet(id);
    }
    const auto held = before->value("revision", std::int64_t{0});
    if (held != revision) {
        return ChangedMeanwhile{held};
    }
    Json sheet = stored_sheet(id, held + 1, before->value("created", utc_now()), entered);
    write_json(folder_ / id / kEntered, sheet);
    return sheet;
}

void SheetStore::remove(const std::string &id) const {
    const fs::path from = folder_of(id);
    const fs::path removed = folder_ / "removed";
    fs::create_directories(removed);
    fs::rename(from, removed / fmt::format("{}-{}", id, utc_now()));
}

Json SheetStore::list(const std::string &words) const {
    std::vector<Json> sheets;
    for (const fs::directory_entry &entry : fs::directory_iterator(folder_)) {
        auto sheet = read(entry.path().filename().string());
        if (!sheet || !has_all_words(lower_ascii(json_line(*sheet)), words)) {
            continue;
        }
        sheet->erase("entered");
        sheets.push_back(std::move(*sheet));
    }
    std::sort(sheets.begin(), sheets.end(), [](const Json &a, const Json &b) {
        return a.value("changed", "") > b.value("changed", "");
    });
    return sheets;
}

fs::path SheetStore::folder_of(const std::string &id) const {
    std::error_code error;
    if (!is_id(id) || !fs::is_directory(folder_ / id, error)) {
        throw no_such_sheet(id);
    }
    return folder_ / id;
}

fs::path SheetStore::file_of(const std::string &id, const std::string &name) const {
    if (!is_file_name(name)) {
        throw InputError({"sheet " + id, 0, ""}, "the file name " + in_quotes(name),
                         "letters, digits, blanks, - _ and ., no path");
    }
    return folder_of(id) / name;
}

} // namespace cospot::desk
