#include "readers/systems_table.h"
#include "readers/measurement_table.h"

#include "quantities/index_scale.h"
#include "shared/number.h"
#include "shared/table.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <map>
#include <utility>

namespace cospot {

namespace {

Technique parse_technique(const TableReader &table) {
    const std::string expected = "tlc, paper, column, hplc or gc";
    const std::string_view text = table.required_text("technique", expected);
    if (const auto technique = technique_from_text(text)) {
        return *technique;
    }
    throw InputError(table.where("technique"), in_quotes(text), expected);
}

std::string parse_scale(const TableReader &table) {
    const std::string_view text = table.text("scale");
    // R_F, k and t_R need no scale; some write the quantity here.
    if (text.empty() || text == "-" || equal_ignoring_case(text, "none") ||
        quantity_from_text(text)) {
        return "";
    }
    if (const auto scale = quantities::index_scale_from_text(text)) {
        return std::string(quantities::to_text(*scale));
    }
    if (const auto own = quantities::own_series_of(text); !own.empty()) {
        return fmt::format("own series: {}", own);
    }
    throw InputError(table.where("scale"), in_quotes(text),
                     "an index scale: n-alkane, fatty acid methyl ester, alkyl aryl ketone, "
                     "1-nitroalkane or 2-ketoalkane; or own series: NAME of other homologues");
}

/// Plates have no times, so that nothing is relative to a reference there.
std::string parse_reference(const TableReader &table, Technique technique) {
    const std::string_view text = table.text("reference");
    if (!text.empty() && !can_show(technique, Quantity::RRT)) {
        throw InputError(table.where("reference"),
                         fmt::format("{} for a {} system", in_quotes(text), to_text(technique)),
                         "nothing: relative retention (RRT, r) is measured in columns");
    }
    return std::string(text);
}

std::optional<double> positive(const TableReader &table, const char *column,
                               const std::string &what) {
    const auto value = table.optional_number(column, what);
    if (value && *value <= 0.0) {
        throw InputError(table.where(column), exact_text(*value), what + " above 0");
    }
    return value;
}

SystemRow read_row(const TableReader &table) {
    SystemRow row;
    library::System &system = row.system;
    system.name = table.required_text("system", "the name of the system");
    check_visible(system.name, table.where("system"));
    system.technique = parse_technique(table);
    system.stationary_phase = table.text("stationary_phase");
    system.mobile_phase = table.text("mobile_phase");
    system.programme = table.text("programme");
    system.scale = parse_scale(table);
    system.reference = parse_reference(table, system.technique);
    system.column_length_m = positive(table, "column_length_m", "a column length in m");
    system.column_diameter_mm = positive(table, "column_diameter_mm", "an inner diameter in mm");
    system.film_um = positive(table, "film_um", "a film thickness in um");
    system.particle_um = positive(table, "particle_um", "a particle size in um");
    system.note = table.text("note");
    if (!system.mobile_phase.empty()) {
        row.eluent = parse_eluent(system.mobile_phase, table.where("mobile_phase"));
    }
    row.where = table.where("system");
    return row;
}

} // namespace

std::vector<SystemRow> read_systems(std::istream &in, const std::string &file,
                                    std::vector<std::string> *notes,
                                    const std::vector<ColumnAlias> &aliases) {
    TableReader table(in, file,
                      {{"system", true},
                       {"technique", true},
                       {"stationary_phase", false},
                       {"mobile_phase", false},
                       {"scale", false},
                       {"programme", false},
                       {"reference", false},
                       {"column_length_m", false},
                       {"column_diameter_mm", false},
                       {"film_um", false},
                       {"particle_um", false},
                       {"note", false}},
                      aliases);
    std::vector<SystemRow> rows;
    std::map<std::string, std::string> seen; // as written, by the name in lower case
    for_each_row(table, [&] {
        SystemRow row = read_row(table);
        const auto [first, is_new] =
            seen.try_emplace(lower_ascii(row.system.name), row.system.name);
        if (!is_new) {
            const bool is_same = first->second == row.system.name;
            throw InputError(row.where,
                             fmt::format("system {} {}", in_quotes(row.system.name),
                                         is_same ? "again" : "beside " + in_quotes(first->second)),
                             is_same ? "each system once"
                                     : "names that differ in more than the case of letters");
        }
        rows.push_back(std::move(row));
    });
    if (notes != nullptr) {
        *notes = table.notes();
    }
    return rows;
}

} // namespace cospot
