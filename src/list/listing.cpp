#include "list/listing.h"

#include "options/open_library.h"
#include "options/selection_options.h"

#include <algorithm>

namespace cospot {

namespace {

ListedCompounds listed_compounds(library::Database &database, const ListOptions &options,
                                 std::ostream &messages) {
    std::optional<std::vector<library::CompoundId>> only;
    if (options.substructure) {
        only = with_substructure(database, options.selection, *options.substructure, messages);
    }
    ListedCompounds listed;
    library::for_each_compound(
        database, options.selection,
        [&](const library::Compound &compound, const library::Counts &counts) {
            if (!only || std::binary_search(only->begin(), only->end(), compound.id)) {
                listed.push_back({compound, counts});
            }
        });
    return listed;
}

ListedSystems listed_systems(library::Database &database, const ListOptions &options) {
    ListedSystems listed;
    for (library::System &system : library::select_systems(database, options.selection)) {
        const library::Counts counts = library::counts_of_system(database, system.id);
        listed.push_back({std::move(system), counts});
    }
    return listed;
}

ListedColumns listed_columns(library::Database &database) {
    ListedColumns listed;
    for (library::PackedColumn &column : library::all_columns(database)) {
        const std::size_t bands = library::bands_of_column(database, column.id).size();
        listed.push_back({std::move(column), bands});
    }
    return listed;
}

} // namespace

Listing listing(const ListOptions &options, const Invocation &invocation) {
    library::Database database = open_library(invocation, library::Access::read);
    switch (options.kind) {
    case ListOptions::Kind::systems:
        return listed_systems(database, options);
    case ListOptions::Kind::columns:
        return listed_columns(database);
    case ListOptions::Kind::compounds:
        break;
    }
    return listed_compounds(database, options, invocation.err);
}

} // namespace cospot
