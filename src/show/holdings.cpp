#include "show/holdings.h"

#include "evidence/elution_order.h"
#include "library/names.h"
#include "library/near_names.h"
#include "library/retire.h"
#include "shared/error.h"
#include "shared/text.h"

#include <utility>

namespace cospot {

namespace {

template <library::IsId Id>
HeldValues held_values(library::Database &database, Id of, const ShowOptions &options) {
    const library::ValueQuestion question{of, options.which, options.selection, options.top};
    HeldValues held{.counts = library::count_records(database, question), .listed = {}};
    library::for_each_record(database, question, [&](const library::MeasurementRecord &record) {
        held.listed.push_back(record);
    });
    return held;
}

HeldCompound held_compound(library::Database &database, library::Compound compound,
                           const ShowOptions &options) {
    HeldCompound held;
    held.values = held_values(database, compound.id, options);
    held.counts = {held.values.counts.held, held.values.counts.others};
    held.synonyms = library::synonyms_of(database, compound.id);
    held.retirement = library::retirement_of_compound(database, compound.id);
    held.former = library::former_structures_of(database, compound.id);
    held.description = library::description_of(database, compound.id);
    held.compound = std::move(compound);
    return held;
}

HeldSystem held_system(library::Database &database, library::System system,
                       const ShowOptions &options) {
    HeldSystem held;
    held.former_names = library::former_names_of(database, system.id);
    held.retirement = library::retirement_of_system(database, system.id);
    held.elution = elution_words(database, system);
    held.counts = library::counts_of_system(database, system.id);
    held.values = held_values(database, system.id, options);
    held.system = std::move(system);
    return held;
}

} // namespace

Holdings holdings(library::Database &database, const ShowOptions &options) {
    Holdings found{options.name, options.which, {}, {}, {}};
    auto system = library::find_system(database, options.name);
    auto compound = compound_if_named(database, options.name, {"command line", 0, ""});
    auto column = library::find_column(database, options.name);
    if (!system && !compound && !column) {
        throw bad_usage(in_quotes(options.name),
                        "a compound, system or column of the library (cospot list)" +
                            did_you_mean(database, options.name, NameOf::any));
    }
    if (system) {
        found.system = held_system(database, std::move(*system), options);
    }
    if (compound) {
        found.compound = held_compound(database, std::move(*compound), options);
    }
    if (column) {
        found.column = {*column, library::bands_of_column(database, column->id)};
    }
    return found;
}

} // namespace cospot
