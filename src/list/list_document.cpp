#include "list/list_document.h"

#include "document/cells.h"
#include "shared/text.h"

#include <algorithm>
#include <string>
#include <utility>

namespace cospot {

namespace {

Cell number_of(std::int64_t count) {
    return count_cell(static_cast<std::size_t>(count));
}

std::string count_sentence(std::size_t count, const std::string &noun) {
    return (count == 0 ? "No " + noun + "s" : counted(count, noun)) + ".";
}

bool is_retired(const ListedCompound &listed) {
    return listed.compound.retired;
}

bool is_retired(const ListedSystem &listed) {
    return listed.system.retired;
}

/// "3 systems, 1 of them retired."
template <typename Listed> std::string held_sentence(const Listed &listed, const char *noun) {
    const auto retired = std::count_if(listed.begin(), listed.end(),
                                       [](const auto &one) { return is_retired(one); });
    std::string sentence = count_sentence(listed.size(), noun);
    if (retired > 0) {
        sentence.insert(sentence.size() - 1, fmt::format(", {} of them retired", retired));
    }
    return sentence;
}

Document document_of_table(std::string title, std::string verdict, Table table, DataTable data) {
    table.is_sortable = table.rows.size() > 3;
    return {.title = std::move(title),
            .blocks = {Paragraph{std::move(verdict), Paragraph::Role::verdict}, std::move(table)},
            .data = std::move(data)};
}

Document document_of(const ListedCompounds &listed) {
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
    return document_of_table("Compounds of the library", held_sentence(listed, "compound"),
                             std::move(table), std::move(data));
}

/// Mobile phase and programme.
std::string conditions_of(const library::System &system) {
    const bool has_both = !system.mobile_phase.empty() && !system.programme.empty();
    return (system.retired ? "retired; " : "") + system.mobile_phase + (has_both ? ", " : "") +
           system.programme;
}

Document document_of(const ListedSystems &listed) {
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
    return document_of_table("Systems of the library", held_sentence(listed, "system"),
                             std::move(table), std::move(data));
}

Document document_of(const ListedColumns &listed) {
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
    return document_of_table("Columns of the library", count_sentence(listed.size(), "column"),
                             std::move(table), std::move(data));
}

} // namespace

Document list_document(const Listing &listing) {
    return std::visit([](const auto &listed) { return document_of(listed); }, listing);
}

} // namespace cospot
