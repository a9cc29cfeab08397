#include "learn/learn_responses.h"

#include "library/names.h"
#include "library/responses.h"
#include "shared/text.h"

namespace cospot {

void learn_responses(library::Database &database, const std::vector<ResponseRow> &rows,
                     library::ChangeId change, LearnSummary &summary) {
    for (const ResponseRow &row : rows) {
        const library::System system = system_named(database, row.system, row.system_where);
        const library::Response response{
            .compound = compound_named(database, row.compound, row.compound_where).id,
            .relative_to = compound_named(database, row.relative_to, row.relative_to_where).id,
            .system = system.id,
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
