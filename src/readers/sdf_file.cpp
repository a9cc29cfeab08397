#include "readers/sdf_file.h"

#include "readers/measurement_table.h"
#include "shared/registry_number.h"
#include "shared/text.h"

#include <istream>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kLongestRecord = 10U << 20U;

/// The field name of a header such as "> 12 <NAME>"; empty where there is none.
std::string_view field_name(std::string_view header) {
    const std::size_t open = header.find('<');
    const std::size_t close = header.rfind('>');
    return open == std::string_view::npos || close <= open
               ? std::string_view()
               : header.substr(open + 1, close - open - 1);
}

} // namespace

SdfFile::SdfFile(std::istream &in, std::string file, std::string name_field)
    : in_(&in), file_(std::move(file)), name_field_(std::move(name_field)) {}

bool SdfFile::read_line(std::string &text) {
    if (!std::getline(*in_, text)) {
        return false;
    }
    ++line_;
    if (!text.empty() && text.back() == '\r') {
        text.pop_back();
    }
    const std::size_t bad = first_invalid_utf8(text);
    if (bad != std::string::npos) {
        throw InputError({file_, line_, std::to_string(bad + 1)}, "a byte that is no UTF-8 text",
                         "an SD file in UTF-8");
    }
    return true;
}

bool SdfFile::next(CompoundRow &row) {
    row = {};
    std::string text;
    bool ended = false;
    while (read_line(text)) {
        if (row.where.line == 0) {
            row.where = {file_, line_, ""};
            record_line_ = line_;
            row.compound = trimmed(text);
        }
        row.mol_block += text + '\n';
        if (row.mol_block.size() > kLongestRecord) {
            throw InputError(row.where, "a record of more than 10 MiB", "records of an SD file");
        }
        if (trimmed(text) == "M  END") {
            ended = true;
            break;
        }
    }
    if (row.mol_block.find_first_not_of(" \t\n") == std::string::npos) {
        return false; // blank lines at the end
    }
    if (!ended) {
        throw InputError({file_, line_, ""}, "the end of the file inside a structure",
                         "a line \"M  END\"");
    }
    read_fields(row);
    if (row.compound.empty()) {
        throw InputError(row.where, "a record without a name",
                         name_field_.empty() ? "a name in the first line (or --map compound=FIELD)"
                                             : "a field " + in_quotes(name_field_));
    }
    check_compound_name(row.compound, row.where);
    return true;
}

/// Reads the data fields up to the end of the record.
void SdfFile::read_fields(CompoundRow &row) {
    if (!name_field_.empty()) {
        row.compound.clear();
    }
    std::string text;
    std::string name;
    while (read_line(text) && text != "$$$$") {
        if (text.starts_with('>')) {
            name = field_name(text);
        } else if (!name.empty() && !trimmed(text).empty()) {
            if (equal_ignoring_case(name, name_field_)) {
                row.compound = trimmed(text);
            } else if (equal_ignoring_case(name, "cas")) {
                row.cas = trimmed(text);
                check_registry_number(row.cas, {file_, line_, "cas"});
            }
            name.clear();
        }
    }
}

} // namespace cospot
