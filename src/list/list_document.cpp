#include "list/list_document.h"

#include "document/cells.h"
#include "document/thousands.h"
#include "shared/text.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

namespace cospot {

namespace {

Cell number_of(std::int64_t count) {
    return count_cell(static_cast<std::size_t>(count));
}

bool is_retired(const ListedCompound &listed) {
    return listed.compound.retired;
}

bool is_retired(const ListedSystem &listed) {
    return listed.system.retired;
}

bool is_retired(const ListedColumn & /*listed*/) {
    return false;
}

bool is_retired(const library::RememberedSheet & /*sheet*/) {
    return false;
}

/// "3 systems, 1 of them retired."
template <typename Rows> std::string held_sentence(const Rows &rows, const std::string &noun) {
    const auto retired =
        std::count_if(rows.begin(), rows.end(), [](const auto &one) { return is_retired(one); });
    return (rows.empty() ? "No " + noun + "s" : counted(rows.size(), noun)) +
           (retired > 0 ? fmt::format(", {} of them retired.", retired) : ".");
}

/// "200 of 100,000 compounds.", "201 to 400 of 100,000 compounds."
std::string page_sentence(std::size_t rows, const Listing &listing, const std::string &noun) {
    const auto number = [](std::size_t count) {
        return in_thousands(static_cast<std::int64_t>(count));
    };
    const std::size_t before = listing.page.skip;
    const std::string of =
        fmt::format(" of {} {}{}.", number(listing.found), noun, listing.found == 1 ? "" : "s");
    if (rows == 0) {
        return "None" + of;
    }
    return (before == 0 ? number(rows) : number(before + 1) + " to " + number(before + rows)) + of;
}

/// What stands below how many there are.
struct Rows {
    Table table;
    DataTable data;
};

Rows rows_of(const ListedCompounds &listed) {
    Table table{
        .label = "Compounds",
        .columns = {
            {"Compound"}, {"Formula"}, {"Molar mass", true}, {"Values", true}, {"Systems", true}}};
    DataTable data{{"compound", "inchikey", "smiles", "cas", "formula", "average_mass",
                    "monoisotopic_mass", "values", "systems", "retired"}};
    for (const auto &[compound, counts] : listed) {
        table.rows.push_back({{{compound.name + (compound.retired ? " (retired)" : "")},
                               {compound.formula},
                               number_cell(compound.average_mass, 2),
                               number_of(counts.values),
                               number_of(counts.others)}});
        data.rows.push_back({compound.name, compound.inchikey, compound.smiles, compound.cas,
                             compound.formula, compound.average_mass, compound.monoisotopic_mass,
                             counts.values, counts.others, compound.retired});
    }
    return {std::move(table), std::move(data)};
}

/// Mobile phase and programme.
std::string conditions_of(const library::System &system) {
    const bool has_both = !system.mobile_phase.empty() && !system.programme.empty();
    return (system.retired ? "retired; " : "") + system.mobile_phase + (has_both ? ", " : "") +
           system.programme;
}

Rows rows_of(const ListedSystems &listed) {
    Table table{
        .label = "Systems",
        .columns = {
            {"System"}, {"Technique"}, {"Conditions"}, {"Values", true}, {"Compounds", true}}};
    DataTable data{{"system", "technique", "stationary_phase", "mobile_phase", "programme", "scale",
                    "reference", "note", "retired", "column_length_m", "column_diameter_mm",
                    "film_um", "particle_um", "values", "compounds"}};
    for (const auto &[system, counts] : listed) {
        table.rows.push_back({{{system.name},
                               {std::string(in_words(system.technique))},
                               {conditions_of(system)},
                               number_of(counts.values),
                               number_of(counts.others)}});
        data.rows.push_back(
            {system.name, std::string(to_text(system.technique)), system.stationary_phase,
             system.mobile_phase, system.programme, system.scale, system.reference, system.note,
             system.retired, datum_of(system.column_length_m), datum_of(system.column_diameter_mm),
             datum_of(system.film_um), datum_of(system.particle_um), counts.values, counts.others});
    }
    return {std::move(table), std::move(data)};
}

Rows rows_of(const ListedColumns &listed) {
    Table table{.label = "Columns",
                .columns = {{"Column"},
                            {"Silica, g", true},
                            {"Diameter, mm", true},
                            {"Bed, mm", true},
                            {"Column volume, mL", true},
                            {"Bands", true}}};
    DataTable data{
        {"column", "silica_g", "diameter_mm", "bed_mm", "column_volume_mL", "outside_mL", "bands"}};
    for (const auto &[column, bands] : listed) {
        table.rows.push_back({{{column.name},
                               size_cell(column.silica_g),
                               size_cell(column.diameter_mm),
                               size_cell(column.bed_mm),
                               size_cell(column.hold_up_ml),
                               count_cell(bands)}});
        data.rows.push_back({column.name, datum_of(column.silica_g), datum_of(column.diameter_mm),
                             datum_of(column.bed_mm), datum_of(column.hold_up_ml),
                             datum_of(column.outside_ml), static_cast<std::int64_t>(bands)});
    }
    return {std::move(table), std::move(data)};
}

/// What the program calls it, then what the table does: "lane: Bahn".
Rows rows_of(const ListedSheets &listed) {
    Table table{.label = "Sheets",
                .columns = {{"When (UTC)"}, {"Who"}, {"Sheet"}, {"Columns"}},
                .heading_column = 2};
    DataTable data{{"sheet", "column", "header", "at", "who"}};
    for (const library::RememberedSheet &sheet : listed) {
        std::string columns;
        for (const ColumnAlias &alias : sheet.columns) {
            columns +=
                fmt::format("{}{}: {}", columns.empty() ? "" : "; ", alias.column, alias.header);
            data.rows.push_back(
                {sheet.name, alias.column, alias.header, sheet.change.at_utc, sheet.change.who});
        }
        table.rows.push_back(
            {{{sheet.change.at_utc}, {sheet.change.who}, {sheet.name}, {std::move(columns)}}});
    }
    return {std::move(table), std::move(data)};
}

const char *noun_of(const Listing &listing) {
    constexpr std::array kNouns{"compound", "system", "column", "sheet"};
    return kNouns.at(listing.rows.index());
}

} // namespace

Document list_document(const Listing &listing) {
    const std::string noun = noun_of(listing);
    return std::visit(
        [&](const auto &listed) {
            auto [table, data] = rows_of(listed);
            table.is_sortable = table.rows.size() > 3;
            std::string verdict = listing.page.is_whole()
                                      ? held_sentence(listed, noun)
                                      : page_sentence(listed.size(), listing, noun);
            return Document{.title = table.label + " of the library",
                            .blocks = {Paragraph{std::move(verdict), Paragraph::Role::verdict},
                                       std::move(table)},
                            .data = std::move(data)};
        },
        listing.rows);
}

} // namespace cospot
