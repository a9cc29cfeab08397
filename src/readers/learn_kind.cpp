#include "readers/learn_kind.h"

#include "readers/input_kind.h"
#include "readers/measurement_table.h"
#include "readers/plate_table.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <utility>

namespace cospot {

namespace {

/// The columns by which the kinds are told.
std::vector<TableColumn> kind_columns() {
    std::vector<TableColumn> columns = plate_columns();
    for (TableColumn &column : columns) {
        column.required = false;
    }
    for (const char *name : {"peak",     "relative_to", "response_factor",
                             "column",   "start_mL",    "end_mL",
                             "compound", "smiles",      "quantity",
                             "value",    "cas",         "synonyms",
                             "run",      "operator",    "instrument",
                             "source",   "note",        "k",
                             "RI",       "RRT",         "r"}) {
        columns.push_back({name});
    }
    columns.push_back({"tR", false, "min"});
    return columns;
}

/// What the reader of each kind needs of a header.
std::vector<std::vector<std::string>> kind_headers() {
    std::vector<std::vector<std::string>> headers{
        {"peak", "tR"},
        {"compound", "tR"},
        {"compound", "smiles"},
        {"compound", "relative_to", "system", "response_factor"},
        {"column", "compound", "Rf", "start_mL", "end_mL"}};
    const auto add = [&](std::vector<std::vector<std::string>> sets,
                         const std::vector<std::string> &required) {
        for (std::vector<std::string> &set : sets) {
            set.insert(set.end(), required.begin(), required.end());
            headers.push_back(std::move(set));
        }
    };
    add(plate_places(), {"lane"});
    add(value_columns(), {"compound"});
    return headers;
}

/// Throws InputError where the headers usually mean a chromatogram or a plate.
void check_is_no_run(const TableReader &table, const std::string &file) {
    const auto refuse = [&](const char *columns, const std::string &maps) {
        if (!maps.empty()) {
            throw InputError(
                {file, table.line(), ""}, "a header of no known kind",
                fmt::format("{}, or --map COLUMN=HEADER for what your table calls them; perhaps {}",
                            columns, maps));
        }
    };
    refuse("of a chromatogram the columns peak,tR,compound", chromatogram_maps(table.header()));
    refuse("of a plate the columns lane,label,distance_mm,front_mm", plate_maps(table.header()));
}

} // namespace

LearnKind learn_kind(InputFile &file, const std::vector<ColumnAlias> &aliases, bool is_of_run) {
    const std::string ending = lower_ascii(std::filesystem::path(file.name()).extension().string());
    if (ending == ".sdf" || ending == ".sd") {
        return LearnKind::sdf;
    }
    if (ending == ".smi" || ending == ".smiles") {
        return LearnKind::smiles_list;
    }
    const TableReader table(file.stream(), file.name(), kind_columns(), aliases, kind_headers());
    file.rewind();
    if (table.has("distance_mm") || table.has("lane")) {
        return LearnKind::plate;
    }
    if (table.has("peak") || (table.has("tR") && !table.has("system"))) {
        return LearnKind::chromatogram;
    }
    if (table.has("response_factor")) {
        return LearnKind::responses;
    }
    if (table.has("start_mL")) {
        return LearnKind::column_runs;
    }
    const auto names_values = [&](const std::vector<std::string> &set) {
        return std::any_of(set.begin(), set.end(),
                           [&](const auto &name) { return table.has(name); });
    };
    const auto sets = value_columns();
    const bool has_values =
        table.has("system") || std::any_of(sets.begin(), sets.end(), names_values);
    if (is_of_run && !has_values && !table.has("smiles")) {
        return LearnKind::chromatogram;
    }
    if (!has_values && !table.has("smiles")) {
        check_is_no_run(table, file.name());
    }
    return has_values ? LearnKind::measurements : LearnKind::compounds;
}

} // namespace cospot
