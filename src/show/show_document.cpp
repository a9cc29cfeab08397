#include "show/show_document.h"

#include "document/cells.h"
#include "document/group_words.h"
#include "document/property_table.h"
#include "document/thousands.h"
#include "report/presentation.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string>
#include <string_view>
#include <utility>

namespace cospot {

namespace {

using Values = std::vector<library::MeasurementRecord>;

std::string size_words(const std::optional<double> &size, std::string_view unit) {
    return size ? fmt::format("{:g} {}", *size, unit) : std::string();
}

std::string change_words(const library::Change &change) {
    return fmt::format("{}, {}: {}", change.at_utc, change.who, change.detail);
}

/// "superseded by #12 at TIME, who: why"
std::string withdrawal_words(const library::MeasurementRecord &value) {
    const std::string successor =
        value.superseded_by ? fmt::format(" by #{}", *value.superseded_by) : "";
    return fmt::format("{}{} at {}", library::to_text(value.state), successor,
                       change_words(*value.withdrawn));
}

/// A compound's values by system, or a system's by compound.
Table values_table(const Values &values, library::Visit which, const char *heading,
                   std::string library::MeasurementRecord::*named) {
    Table table{.label = "Values",
                .columns = {{"No.", true}, {heading}, {"Value", true}, {"Date"}, {"Run"}},
                .heading_column = 1,
                .is_sortable = values.size() > 3};
    for (const library::MeasurementRecord &value : values) {
        Row row{{{which == library::Visit::all ? fmt::format("#{}", value.id) : "",
                  static_cast<double>(library::as_number(value.id))},
                 {value.*named},
                 {fmt::format("{} {}", to_text(value.quantity), shown(value.quantity, value.value)),
                  value.value},
                 {value.date},
                 {value.run}}};
        if (value.withdrawn) {
            row.notes.push_back(withdrawal_words(value));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

/// "3 values on 1 system, from 2 independent runs; 1 more no longer counts"
std::string count_words(const library::Counts &counts, std::string_view where,
                        const HeldValues &values) {
    const std::int64_t all = values.counts.all;
    const std::int64_t held = values.counts.held;
    std::string words = fmt::format("{} value{} {}", in_thousands(counts.values),
                                    counts.values == 1 ? "" : "s", where);
    if (held < counts.values) {
        words += fmt::format("; {} of them here", in_thousands(held));
    }
    if (held > 0 && values.is_complete()) {
        words += ", from " + counted(library::independent_runs(values.listed), "independent run");
    }
    if (all > held) {
        words +=
            fmt::format("; {} more no longer {}", all - held, all - held == 1 ? "counts" : "count");
    }
    if (!values.is_complete()) {
        words += fmt::format("; the first {}{} are listed",
                             in_thousands(static_cast<std::int64_t>(values.listed.size())),
                             all == counts.values ? "" : " of " + in_thousands(all));
    }
    return words;
}

/// A terminal leaves out sections without content.
Block values_block(std::string heading, Table table) {
    if (table.rows.empty()) {
        return Paragraph{heading + '.', Paragraph::Role::verdict};
    }
    return Section{std::move(heading), "", {}, {std::move(table)}};
}

Table compound_table(const HeldCompound &held) {
    const library::Compound &compound = held.compound;
    Table table = property_table("What the compound is", "properties");
    add_property(table, "Also called", fmt::format("{}", fmt::join(held.synonyms, "; ")));
    add_property(table, "Formula", compound.formula);
    add_property(table, "Molar mass",
                 molar_mass_words(compound.average_mass, compound.monoisotopic_mass));
    add_property(table, "SMILES", compound.smiles);
    add_property(table, "InChIKey", compound.inchikey);
    add_property(table, "Registry number", compound.cas);
    for (const library::FormerStructure &former : held.former) {
        add_property(table, "Wrong structure",
                     fmt::format("{} ({})", former.smiles, former.inchikey));
    }
    add_property(table, "Stereochemistry", compound.open_stereo ? "not fully given" : "");
    add_property(table, "Retired", held.retirement ? change_words(*held.retirement) : "");
    if (const auto &described = held.description) {
        add_property(table, "log P (Crippen)", fmt::format("{:.2f}", described->crippen_logp));
        add_property(table, "Polar surface", fmt::format("{:.0f} Å²", described->polar_surface));
        add_property(table, "Hydrogen bonds",
                     hydrogen_bond_words(described->hydrogen_bond_donors,
                                         described->hydrogen_bond_acceptors));
        add_property(table, "Functional groups", groups_words(described->groups));
    }
    return table;
}

void add_compound(Document &document, const HeldCompound &held, library::Visit which) {
    const std::string where = "on " + counted(held.counts.others, "system");
    document.blocks.push_back(
        Section{held.compound.name,
                "",
                {},
                {Beside{{Structures{{{held.compound.name, held.compound.smiles}}},
                         compound_table(held)}}}});
    document.blocks.push_back(values_block(
        count_words(held.counts, where, held.values),
        values_table(held.values.listed, which, "System", &library::MeasurementRecord::system)));
}

Table system_table(const HeldSystem &held) {
    const library::System &system = held.system;
    Table table = property_table("What the system is", "properties");
    add_property(table, "Formerly called", fmt::format("{}", fmt::join(held.former_names, "; ")));
    add_property(table, "Technique", std::string(in_words(system.technique)));
    add_property(table, "Stationary phase", system.stationary_phase);
    add_property(table, "Mobile phase", system.mobile_phase);
    add_property(table, "Programme", system.programme);
    add_property(table, "Index scale", system.scale);
    add_property(table, "Reference", system.reference);
    add_property(table, "Column length", size_words(system.column_length_m, "m"));
    add_property(table, "Column diameter", size_words(system.column_diameter_mm, "mm"));
    add_property(table, "Film", size_words(system.film_um, "µm"));
    add_property(table, "Particles", size_words(system.particle_um, "µm"));
    add_property(table, "Note", system.note);
    add_property(table, "Retired", held.retirement ? change_words(*held.retirement) : "");
    return table;
}

void add_system(Document &document, const HeldSystem &held, library::Visit which) {
    Section section{held.system.name, "", {}, {system_table(held)}};
    List warnings{"", {}, List::Role::warnings};
    for (const std::string &sentence : held.elution) {
        if (sentence.starts_with(kWarningMark)) {
            warnings.items.push_back(sentence.substr(kWarningMark.size()));
        } else {
            section.blocks.push_back(Paragraph{sentence});
        }
    }
    section.blocks.push_back(std::move(warnings));
    document.blocks.push_back(std::move(section));
    const std::string where = "of " + counted(held.counts.others, "compound");
    document.blocks.push_back(values_block(count_words(held.counts, where, held.values),
                                           values_table(held.values.listed, which, "Compound",
                                                        &library::MeasurementRecord::compound)));
}

Table column_table(const library::PackedColumn &column) {
    Table table = property_table("What the column is", "properties");
    add_property(table, "Silica", size_words(column.silica_g, "g"));
    add_property(table, "Inner diameter", size_words(column.diameter_mm, "mm"));
    add_property(table, "Bed", size_words(column.bed_mm, "mm"));
    add_property(table, "Hold-up volume", size_words(column.hold_up_ml, "mL"));
    add_property(table, "Volume outside the bed", size_words(column.outside_ml, "mL"));
    return table;
}

Table bands_table(const std::vector<library::ColumnBand> &bands) {
    Table table{.label = "Bands",
                .columns = {{"Compound"},
                            {"Rf", true},
                            {"From, mL", true},
                            {"Maximum, mL", true},
                            {"To, mL", true},
                            {"Date"},
                            {"Run"}},
                .heading_column = 0,
                .is_sortable = bands.size() > 3};
    for (const library::ColumnBand &band : bands) {
        table.rows.push_back({{{band.compound},
                               number_cell(band.rf, 2),
                               size_cell(band.start_ml),
                               size_cell(band.peak_ml),
                               size_cell(band.end_ml),
                               {band.date},
                               {band.run}}});
    }
    return table;
}

void add_column(Document &document, const HeldColumn &held) {
    document.blocks.push_back(Section{held.column.name, "", {}, {column_table(held.column)}});
    const std::size_t bands = held.bands.size();
    document.blocks.push_back(
        values_block(bands == 0 ? "No run of this column has been learned" : counted(bands, "band"),
                     bands_table(held.bands)));
}

/// One row a band.
DataTable column_data(const HeldColumn &held) {
    DataTable data{{"column", "compound", "Rf", "start_mL", "peak_mL", "end_mL", "amount_mg",
                    "load_mL", "run", "date", "source", "note"}};
    for (const library::ColumnBand &band : held.bands) {
        data.rows.push_back({held.column.name, band.compound, band.rf, band.start_ml,
                             datum_of(band.peak_ml), band.end_ml, datum_of(band.amount_mg),
                             band.load_ml, band.run, band.date, band.source, band.note});
    }
    return data;
}

void add_rows(DataTable &data, const Values &values) {
    for (const library::MeasurementRecord &value : values) {
        data.rows.push_back({library::as_number(value.id), value.compound, value.system,
                             std::string(to_text(value.quantity)), value.value,
                             datum_of(value.uncertainty), value.run, value.date,
                             value.operator_name, value.instrument, value.source, value.note,
                             std::string(library::to_text(value.state))});
    }
}

/// One row a value.
DataTable show_data(const Holdings &holdings) {
    if (holdings.column && !holdings.system && !holdings.compound) {
        return column_data(*holdings.column);
    }
    DataTable data{{"id", "compound", "system", "quantity", "value", "uncertainty", "run", "date",
                    "operator", "instrument", "source", "note", "state"}};
    if (holdings.system) {
        add_rows(data, holdings.system->values.listed);
    }
    if (const auto &held = holdings.compound) {
        add_rows(data, held->values.listed);
    }
    return data;
}

bool holds_values(const Holdings &holdings) {
    return (holdings.system && !holdings.system->values.listed.empty()) ||
           (holdings.compound && !holdings.compound->values.listed.empty());
}

} // namespace

Document show_document(const Holdings &holdings) {
    Document document{.title = "What the library holds on " + holdings.name,
                      .data = show_data(holdings)};
    if (holdings.system) {
        add_system(document, *holdings.system, holdings.which);
    }
    if (const auto &held = holdings.compound) {
        add_compound(document, *held, holdings.which);
    }
    if (holdings.column) {
        add_column(document, *holdings.column);
    }
    if (holds_values(holdings)) {
        document.notes.emplace_back(library::kIndependentRuns);
    }
    return document;
}

} // namespace cospot
