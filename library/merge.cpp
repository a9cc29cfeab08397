#include "library/merge.h"

#include "library/changes.h"
#include "library/column_runs.h"
#include "library/library_file.h"
#include "library/merge_compounds.h"
#include "library/merge_systems.h"
#include "library/merge_values.h"
#include "library/responses.h"
#include "library/sheets.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <system_error>

namespace cospot::library {

namespace {

namespace fs = std::filesystem;

/// A copy of the library in this program's format, which is gone when it is closed.
Database upgraded_copy(const Database &library) {
    Database copy("", Access::create);
    library.copy_into(copy);
    Transaction transaction(copy);
    apply_migrations(copy, format_of(copy), schema_version());
    transaction.commit();
    return copy;
}

/// Response factors; those of the other library count as newer.
void merge_responses(MergeContext &merge, const IdMap<CompoundId> &compounds,
                     const IdMap<SystemId> &systems) {
    for (Response response : all_responses(merge.there)) {
        response.compound = compounds.at(response.compound);
        response.relative_to = compounds.at(response.relative_to);
        const auto system = systems.find(response.system);
        if (system == systems.end()) {
            continue; // refused, and reported as such
        }
        response.system = system->second;
        if (add_response(merge.here, response, merge.change)) {
            ++merge.summary.responses_added;
        }
    }
}

std::string bed_text(const PackedColumn &column) {
    std::string text;
    const auto add = [&](const std::optional<double> &size, const char *of_what) {
        if (size) {
            text += fmt::format("{}{:g} {}", text.empty() ? "" : ", ", *size, of_what);
        }
    };
    add(column.silica_g, "g of silica");
    add(column.diameter_mm, "mm inner diameter");
    add(column.bed_mm, "mm of bed");
    add(column.hold_up_ml, "mL of column volume");
    add(column.outside_ml, "mL outside the bed");
    return text;
}

/// Columns by name, with their bands; those of another size are refused.
void merge_columns(MergeContext &merge) {
    for (const PackedColumn &there : all_columns(merge.there)) {
        const auto here = find_column(merge.here, there.name);
        if (here && !is_same_bed(*here, there)) {
            merge.summary.findings.push_back({"column", there.name, bed_text(*here),
                                              bed_text(there),
                                              "the bands of the other one were not taken over"});
            continue;
        }
        const ColumnId id = here ? here->id : add_column(merge.here, there, merge.change);
        merge.summary.columns_added += here ? 0 : 1;
        for (const ColumnBand &band : bands_of_column(merge.there, there.id)) {
            merge.summary.bands_added += add_band(merge.here, id, band, merge.change) ? 1 : 0;
        }
    }
}

/// What sheets call their columns, of sheets that are not known here.
void merge_sheets(MergeContext &merge) {
    for (const std::string &sheet : sheet_names(merge.there)) {
        if (columns_of_sheet(merge.here, sheet).empty()) {
            keep_sheet(merge.here, sheet, columns_of_sheet(merge.there, sheet), merge.change);
        }
    }
}

void merge_all(MergeContext &merge, const MergeOptions &options) {
    const auto compounds = merge_compounds(merge, options);
    const auto systems = merge_systems(merge, options);
    const auto runs = merge_runs(merge, systems);
    merge_values(merge, compounds, systems, runs, options);
    merge_responses(merge, compounds, systems);
    merge_columns(merge);
    merge_sheets(merge);
}

} // namespace

ChangeId copy_change(MergeContext &merge, ChangeId change) {
    const auto known = merge.copied_changes.find(change);
    if (known != merge.copied_changes.end()) {
        return known->second;
    }
    Statement &query =
        merge.there.cached("SELECT at_utc, who, action, detail, command FROM change WHERE id = ?1");
    if (!query.bind(1, change).step()) {
        throw DatabaseError(merge.other + ": a retired value without the change that retired it");
    }
    merge.here
        .cached("INSERT INTO change (at_utc, who, action, detail, command) "
                "VALUES (?1, ?2, ?3, ?4, ?5)")
        .bind(1, query.text(0))
        .bind(2, query.text(1))
        .bind(3, query.text(2))
        .bind(4, query.text(3) + " (from " + merge.other + ")")
        .bind(5, query.text(4))
        .run();
    query.reset();
    const ChangeId id = merge.here.last_insert_id<ChangeId>();
    merge.copied_changes.emplace(change, id);
    return id;
}

MergeSummary merge_library(Database &database, const fs::path &other, const MergeOptions &options) {
    std::error_code error;
    if (fs::equivalent(other, database.file(), error)) {
        throw InputError({other.string(), 0, ""}, "the library itself", "another library");
    }
    Database there = open_unchanged(other);
    if (format_of(there) < schema_version()) {
        there = upgraded_copy(there);
    }
    there.execute("BEGIN"); // one moment of the other library, whoever writes to it
    MergeSummary summary;
    Transaction transaction(database);
    MergeContext merge{
        database, there, other.filename().string(), begin_change(database, "merge", other.string()),
        summary,  {}};
    merge_all(merge, options);
    transaction.commit();
    return summary;
}

} // namespace cospot::library
