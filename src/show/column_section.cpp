#include "show/column_section.h"

#include "document/cells.h"
#include "document/property_table.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <string_view>
#include <utility>

namespace cospot {

namespace {

std::string with_unit(const std::optional<double> &size, std::string_view unit) {
    return size ? fmt::format("{:g} {}", *size, unit) : "";
}

Table column_table(const library::PackedColumn &column) {
    Table table = property_table("What the column is", "properties");
    add_property(table, "Silica", with_unit(column.silica_g, "g"));
    add_property(table, "Inner diameter", with_unit(column.diameter_mm, "mm"));
    add_property(table, "Bed", with_unit(column.bed_mm, "mm"));
    add_property(table, "Hold-up volume", with_unit(column.hold_up_ml, "mL"));
    add_property(table, "Volume outside the bed", with_unit(column.outside_ml, "mL"));
    return table;
}

Cell volume_cell(double volume_ml) {
    return {fmt::format("{:g}", volume_ml), volume_ml};
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
                               {fmt::format("{:.2f}", band.rf), band.rf},
                               volume_cell(band.start_ml),
                               band.peak_ml ? volume_cell(*band.peak_ml) : Cell{},
                               volume_cell(band.end_ml),
                               {band.date},
                               {band.run}}});
    }
    return table;
}

} // namespace

void add_column(Document &document, const HeldColumn &held) {
    document.blocks.push_back(Section{held.column.name, "", {}, {column_table(held.column)}});
    const std::string heading = counted(held.bands.size(), "band");
    if (held.bands.empty()) {
        document.blocks.push_back(
            Paragraph{"No run of this column has been learned.", Paragraph::Role::verdict});
    } else {
        document.blocks.push_back(Section{heading, "", {}, {bands_table(held.bands)}});
    }
}

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

} // namespace cospot
