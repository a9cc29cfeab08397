#include "learning/learn_responses.h"

#include "library/compounds.h"
#include "library/responses.h"
#include "library/systems.h"
#include "shared/text.h"

namespace cospot {

namespace {

std::int64_t compound_of(library::Database &database, const std::string &name, const Where &where) {
    const auto compounds = library::find_by_name(database, name);
    if (compounds.size() != 1) {
        throw InputError(where, in_quotes(name) + (compounds.empty() ? "" : ", several structures"),
                         "one compound of the library, by name or InChIKey (cospot list)");
    }
    return compounds.front().id;
}

} // namespace

void learn_responses(library::Database &database, const std::vector<ResponseRow> &rows,
                     std::int64_t change, LearnSummary &summary) {
    for (const ResponseRow &row : rows) {
        const auto system = library::find_system(database, row.system);
        if (!system) {
            throw InputError(row.system_where, in_quotes(row.system),
                             "a system of the library (cospot list systems)");
        }
        const library::Response response{
            .compound = compound_of(database, row.compound, row.compound_where),
            .relative_to = compound_of(database, row.relative_to, row.relative_to_where),
            .system = system->id,
            .factor = row.factor,
            .date = row.date,
            .source = row.source,
            .note = row.note};
        if (response.compound == response.relative_to) {
            throw InputError(row.relative_to_where, in_quotes(row.relative_to),
                             "another compound than that of the row");
        }
        const bool is_new = library::add_response(database, response, change);
        ++(is_new ? summary.responses_added : summary.responses_known);
    }
}

} // namespace cospot
