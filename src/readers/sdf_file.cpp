#include "readers/sdf_file.h"

#include "readers/measurement_table.h"
#include "shared/registry_number.h"
#include "shared/text.h"

#include <algorithm>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kLongestRecord = 10U << 20U;
constexpr std::size_t kPerLine = 32; // an empty line takes memory, too
constexpr std::string_view kRecordEnd = "$$$$";

/// The field name of a header such as "> 12 <NAME>"; empty where there is none.
std::string_view field_name(std::string_view header) {
    const std::size_t open = header.find('<');
    const std::size_t close = header.rfind('>');
    return open == std::string_view::npos || close <= open
               ? std::string_view()
               : header.substr(open + 1, close - open - 1);
}

bool is_blank(const std::string &line) {
    return trimmed(line).empty();
}

} // namespace

SdfFile::SdfFile(std::istream &in, std::string file, std::string name_field)
    : lines_(in, std::move(file), "an SD file in UTF-8"), name_field_(std::move(name_field)) {}

bool SdfFile::next(CompoundRow &row) {
    row = {};
    if (!read_record()) {
        return false;
    }
    row.where = {lines_.file(), record_line_, ""};
    read_fields(row, read_structure(row));
    if (row.compound.empty()) {
        throw InputError(row.where, "a record without a name",
                         name_field_.empty() ? "a name in the first line (or --map compound=FIELD)"
                                             : "a field " + in_quotes(name_field_));
    }
    check_compound_name(row.compound, row.where);
    return true;
}

/// Reads the lines up to the end of the record; false where nothing but blank lines is left. What
/// cannot be read costs the whole record: the next call passes over the rest of it first.
bool SdfFile::read_record() {
    if (std::exchange(is_inside_record_, true)) {
        skip_record();
    }
    record_.clear();
    record_line_ = lines_.line() + 1;
    std::size_t size = 0;
    std::string text;
    while (lines_.next(text) && text != kRecordEnd) {
        size += text.size() + kPerLine;
        if (size > kLongestRecord) {
            throw InputError({lines_.file(), record_line_, ""}, "a record of more than 10 MiB",
                             "records of an SD file");
        }
        record_.push_back(text);
    }
    is_inside_record_ = false;
    return text == kRecordEnd || !std::all_of(record_.begin(), record_.end(), is_blank);
}

void SdfFile::skip_record() {
    std::string text;
    for (bool more = true; more;) {
        try {
            more = lines_.next(text) && text != kRecordEnd;
        } catch (const InputError &) { // a further fault of the same record
        }
    }
}

/// Takes the mol block and its title; returns how many lines it has.
std::size_t SdfFile::read_structure(CompoundRow &row) const {
    const auto end = std::find_if(record_.begin(), record_.end(), [](const std::string &line) {
        return trimmed(line) == "M  END";
    });
    if (end == record_.end()) {
        throw InputError({lines_.file(), lines_.line(), ""},
                         "the end of a record inside a structure", "a line \"M  END\"");
    }
    row.compound = trimmed(record_.front());
    for (auto line = record_.begin(); line != end + 1; ++line) {
        row.mol_block += *line + '\n';
    }
    return static_cast<std::size_t>(end + 1 - record_.begin());
}

/// Takes from the lines behind the mol block the name, where a field holds it, and the registry
/// number.
void SdfFile::read_fields(CompoundRow &row, std::size_t first) const {
    if (!name_field_.empty()) {
        row.compound.clear();
    }
    std::string_view name;
    for (std::size_t i = first; i < record_.size(); ++i) {
        const std::string_view text = trimmed(record_[i]);
        if (text.starts_with('>')) {
            name = field_name(record_[i]);
        } else if (!name.empty() && !text.empty()) {
            if (equal_ignoring_case(name, name_field_)) {
                row.compound = text;
            } else if (equal_ignoring_case(name, "cas")) {
                row.cas = text;
                check_registry_number(row.cas, {lines_.file(), record_line_ + i, "cas"});
            }
            name = {};
        }
    }
}

} // namespace cospot
