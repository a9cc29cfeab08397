#include "list/listing.h"

#include "shared/text.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace cospot {

namespace {

/// The items on a page of them.
template <class Items> Items of_page(Items all, const library::Page &page) {
    const std::size_t first = std::min(page.skip, all.size());
    const std::size_t count = std::min(page.top.value_or(all.size()), all.size() - first);
    const auto begin = all.begin() + static_cast<std::ptrdiff_t>(first);
    return {std::make_move_iterator(begin),
            std::make_move_iterator(begin + static_cast<std::ptrdiff_t>(count))};
}

Listing listed_compounds(library::Database &database, const ListQuestion &question) {
    ListedCompounds listed;
    library::for_each_compound(
        database, question.selection,
        [&](const library::Compound &compound, const library::Counts &counts) {
            listed.push_back({compound, counts});
        },
        question.page);
    const std::size_t found = question.page.is_whole()
                                  ? listed.size()
                                  : library::count_compounds(database, question.selection);
    return {std::move(listed), found, question.page};
}

constexpr std::string library::System::*kSearched[]{
    &library::System::name, &library::System::stationary_phase, &library::System::mobile_phase,
    &library::System::programme};

/// Whether the name of the system, or what it says of its phases, holds the text.
bool holds(const library::System &system, const std::string &text) {
    const std::string part = lower_ascii(text);
    return std::any_of(std::begin(kSearched), std::end(kSearched), [&](auto field) {
        return lower_ascii(system.*field).find(part) != std::string::npos;
    });
}

Listing listed_systems(library::Database &database, const ListQuestion &question) {
    std::vector<library::System> systems = library::select_systems(database, question.selection);
    std::erase_if(systems, [&](const library::System &system) {
        return !holds(system, question.selection.name_part);
    });
    const std::size_t found = systems.size();
    ListedSystems listed;
    for (library::System &system : of_page(std::move(systems), question.page)) {
        const library::Counts counts = library::counts_of_system(database, system.id);
        listed.push_back({std::move(system), counts});
    }
    return {std::move(listed), found, question.page};
}

Listing listed_columns(library::Database &database, const ListQuestion &question) {
    std::vector<library::PackedColumn> columns = library::all_columns(database);
    const std::size_t found = columns.size();
    ListedColumns listed;
    for (library::PackedColumn &column : of_page(std::move(columns), question.page)) {
        const std::size_t bands = library::bands_of_column(database, column.id).size();
        listed.push_back({std::move(column), bands});
    }
    return {std::move(listed), found, question.page};
}

Listing listed_sheets(library::Database &database, const ListQuestion &question) {
    ListedSheets sheets = library::remembered_sheets(database);
    const std::size_t found = sheets.size();
    return {of_page(std::move(sheets), question.page), found, question.page};
}

} // namespace

Listing listing(library::Database &database, const ListQuestion &question) {
    switch (question.kind) {
    case ListQuestion::Kind::systems:
        return listed_systems(database, question);
    case ListQuestion::Kind::columns:
        return listed_columns(database, question);
    case ListQuestion::Kind::sheets:
        return listed_sheets(database, question);
    case ListQuestion::Kind::compounds:
        break;
    }
    return listed_compounds(database, question);
}

} // namespace cospot
