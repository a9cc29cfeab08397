#include "export/export_csv.h"

#include "shared/csv.h"
#include "shared/number.h"

#include <optional>

namespace cospot {

namespace {

std::string line_of(const std::vector<std::string> &fields) {
    std::string line;
    for (const std::string &field : fields) {
        line += (line.empty() ? "" : ",") + field;
    }
    return line + '\n';
}

/// A name between the bars of a list.
std::string with_bars_escaped(const std::string &name) {
    std::string text;
    for (const char c : name) {
        if (c == '|' || c == '\\') {
            text += '\\';
        }
        text += c;
    }
    return text;
}

std::string number_field(const std::optional<double> &value) {
    return value ? exact_text(*value) : "";
}

} // namespace

std::string values_csv_header() {
    return "compound,smiles,cas,system,quantity,value,uncertainty,run,date,operator,instrument,"
           "source,note\n";
}

std::string csv_line(const library::ExportRecord &record) {
    const library::MeasurementRecord &value = record.value;
    return line_of({csv_field(value.compound), csv_field(record.smiles), record.cas,
                    csv_field(value.system), std::string(to_text(value.quantity)),
                    exact_text(value.value), number_field(value.uncertainty), csv_field(value.run),
                    value.date, csv_field(value.operator_name), csv_field(value.instrument),
                    csv_field(value.source), csv_field(value.note)});
}

std::string compounds_csv_header() {
    return "compound,smiles,cas,synonyms\n";
}

std::string csv_line(const library::Compound &compound, const std::vector<std::string> &synonyms) {
    std::string names;
    for (const std::string &synonym : synonyms) {
        names += (names.empty() ? "" : "|") + with_bars_escaped(synonym);
    }
    return line_of(
        {csv_field(compound.name), csv_field(compound.smiles), compound.cas, csv_field(names)});
}

std::string systems_csv_header() {
    return "system,technique,stationary_phase,mobile_phase,programme,scale,reference,"
           "column_length_m,column_diameter_mm,film_um,particle_um,note\n";
}

std::string csv_line(const library::System &system) {
    return line_of({csv_field(system.name), std::string(to_text(system.technique)),
                    csv_field(system.stationary_phase), csv_field(system.mobile_phase),
                    csv_field(system.programme), csv_field(system.scale),
                    csv_field(system.reference), number_field(system.column_length_m),
                    number_field(system.column_diameter_mm), number_field(system.film_um),
                    number_field(system.particle_um), csv_field(system.note)});
}

std::string responses_csv_header() {
    return "compound,relative_to,system,response_factor,date,source,note\n";
}

std::string csv_line(const library::ResponseRecord &record) {
    return line_of({csv_field(record.compound), csv_field(record.relative_to),
                    csv_field(record.system), exact_text(record.factor), record.date,
                    csv_field(record.source), csv_field(record.note)});
}

std::string columns_csv_header() {
    return "column,silica_g,diameter_mm,bed_mm,column_volume_mL,outside_mL,run,date,compound,Rf,"
           "start_mL,peak_mL,end_mL,amount_mg,load_mL,source,note\n";
}

std::string csv_line(const library::PackedColumn &column, const library::ColumnBand &band) {
    return line_of({csv_field(column.name), number_field(column.silica_g),
                    number_field(column.diameter_mm), number_field(column.bed_mm),
                    number_field(column.hold_up_ml), number_field(column.outside_ml),
                    csv_field(band.run), band.date, csv_field(band.compound), exact_text(band.rf),
                    exact_text(band.start_ml), number_field(band.peak_ml), exact_text(band.end_ml),
                    number_field(band.amount_mg), exact_text(band.load_ml), csv_field(band.source),
                    csv_field(band.note)});
}

} // namespace cospot
