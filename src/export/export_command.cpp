#include "document/progress.h"
#include "export/export_csv.h"
#include "library/column_runs.h"
#include "library/partial_file.h"
#include "library/responses.h"
#include "library/selection.h"
#include "list/library_json.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "options/selection_options.h"
#include "shared/text.h"
#include "structures/structure_service.h"

#include <algorithm>
#include <cstddef>
#include <fstream>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

enum class Format { csv, json, sdf };

Format format_of(const CommandOptions &options, const Invocation &invocation) {
    const std::string text = invocation.json ? "json" : options.get<std::string>("format");
    if (text == "csv") {
        return Format::csv;
    }
    if (text == "json") {
        return Format::json;
    }
    if (text == "sdf") {
        return Format::sdf;
    }
    throw bad_option("format", in_quotes(text), "csv, json or sdf");
}

/// Whether the name is fit for the title of a mol block: it holds no control characters, and is not
/// like a mark of the format.
bool is_title(const std::string &name) {
    return printable(name) == name && !name.starts_with("$");
}

std::string sdf_record(const library::Compound &compound) {
    return structure_service().write_sdf_record(
        compound.smiles, is_title(compound.name) ? compound.name : compound.inchikey,
        {{"CAS", compound.cas}, {"INCHIKEY", compound.inchikey}, {"FORMULA", compound.formula}});
}

void write_compound(const library::Compound &compound, const library::Counts &counts,
                    library::Database &database, Format format, std::ostream &out) {
    switch (format) {
    case Format::csv:
        out << csv_line(compound, library::synonyms_of(database, compound.id));
        break;
    case Format::json:
        out << json_line(library_json(compound, counts)) << '\n';
        break;
    case Format::sdf:
        out << sdf_record(compound);
        break;
    }
}

void export_compounds(library::Database &database, const CommandOptions &options, Format format,
                      std::ostream &out, std::ostream &err) {
    if (format == Format::csv) {
        out << compounds_csv_header();
    }
    const library::Selection selection = selection_of(options);
    std::optional<std::vector<library::CompoundId>> with; // the substructure, if asked for
    if (options.has("substructure")) {
        with =
            with_substructure(database, selection, options.get<std::string>("substructure"), err);
    }
    Progress progress(err, "compounds",
                      with ? with->size() : library::count_compounds(database, selection));
    std::size_t without_name = 0;
    library::for_each_compound(database, selection, [&](const auto &compound, const auto &counts) {
        if (!with || std::binary_search(with->begin(), with->end(), compound.id)) {
            progress.clear(); // the output may be on the same terminal
            write_compound(compound, counts, database, format, out);
            progress.advance(1);
            without_name += format == Format::sdf && !is_title(compound.name) ? 1 : 0;
        }
    });
    progress.clear();
    if (without_name > 0) {
        err << "cospot: " << without_name
            << " compounds have the InChIKey as title: an SDF cannot hold their names\n";
    }
}

void export_systems(library::Database &database, const CommandOptions &options, Format format,
                    std::ostream &out) {
    if (format == Format::csv) {
        out << systems_csv_header();
    }
    for (const library::System &system : library::select_systems(database, selection_of(options))) {
        if (format == Format::csv) {
            out << csv_line(system);
        } else {
            out << json_line(library_json(system, library::counts_of_system(database, system.id)))
                << '\n';
        }
    }
}

void export_responses(library::Database &database, Format format, std::ostream &out) {
    if (format != Format::csv) {
        throw bad_option("format", "another format than csv for responses", "csv");
    }
    out << responses_csv_header();
    for (const library::ResponseRecord &record : library::response_records(database)) {
        out << csv_line(record);
    }
}

void export_columns(library::Database &database, Format format, std::ostream &out) {
    if (format != Format::csv) {
        throw bad_option("format", "another format than csv for columns", "csv");
    }
    out << columns_csv_header();
    for (const library::PackedColumn &column : library::all_columns(database)) {
        for (const library::ColumnBand &band : library::bands_of_column(database, column.id)) {
            out << csv_line(column, band);
        }
    }
}

void export_values(library::Database &database, const CommandOptions &options, Format format,
                   std::ostream &out) {
    if (options.has("substructure")) {
        throw bad_option("substructure", "export of values", "export compounds");
    }
    if (format == Format::csv) {
        out << values_csv_header();
    }
    library::for_each_value(database, selection_of(options), [&](const auto &record) {
        if (format == Format::csv) {
            out << csv_line(record);
        } else {
            out << json_line(library_json(record.value, library::Visit::held)) << '\n';
        }
    });
}

void export_to(std::ostream &out, const std::string &what, library::Database &database,
               const CommandOptions &options, Format format, std::ostream &err) {
    if (format == Format::sdf && what != "compounds") {
        throw bad_option("format", "sdf for " + what,
                         "sdf for compounds; csv or json for values and systems");
    }
    if (what == "compounds") {
        export_compounds(database, options, format, out, err);
    } else if (what == "responses") {
        export_responses(database, format, out);
    } else if (what == "columns") {
        export_columns(database, format, out);
    } else if (what == "systems") {
        export_systems(database, options, format, out);
    } else {
        export_values(database, options, format, out);
    }
}

void check_is_written(std::ostream &out, const std::string &name) {
    out.flush();
    if (!out) {
        throw InputError({name, 0, ""}, "no room, or a disk that fails",
                         "room for the export: free some space, or name a file on another disk");
    }
}

} // namespace

int run_export(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] export values|compounds|systems|responses|columns",
        "Writes what the library holds. The CSV of all five, learned in another library,\n"
        "makes the same library again, but for what was retired or superseded, ladders\n"
        "and the history of changes (cospot backup keeps these too):\n"
        "  cospot export systems > s.csv; cospot export compounds > c.csv\n"
        "  cospot export values > v.csv; cospot export responses > r.csv\n"
        "  cospot export columns > b.csv\n"
        "  cospot --library copy.db init\n"
        "  cospot --library copy.db learn --systems s.csv c.csv v.csv r.csv b.csv");
    options.add()("format", po::value<std::string>()->default_value("csv"),
                  "csv, json or (compounds only) sdf")("output", po::value<std::string>(),
                                                       "new file to write (else standard output)");
    add_selection_options(options);
    options.positional("what", 1, "values, compounds, systems, responses or columns");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const std::string what =
        options.has("what") ? options.get<std::vector<std::string>>("what").front() : "";
    if (what != "values" && what != "compounds" && what != "systems" && what != "responses" &&
        what != "columns") {
        throw bad_usage(in_quotes(what), "values, compounds, systems, responses or columns");
    }
    const Format format = format_of(options, invocation);
    library::Database database = open_library(invocation, library::Access::read);
    if (!options.has("output")) {
        export_to(invocation.out, what, database, options, format, invocation.err);
        check_is_written(invocation.out, "standard output");
        return kDone;
    }
    const auto &name = options.get<std::string>("output");
    library::check_name_is_free(name);
    const library::PartialFile partial(name);
    std::ofstream file(partial.name(), std::ios::binary);
    export_to(file, what, database, options, format, invocation.err);
    check_is_written(file, name);
    partial.publish();
    return kDone;
}

} // namespace cospot
