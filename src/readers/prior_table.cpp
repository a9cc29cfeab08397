#include "readers/prior_table.h"

#include "shared/number.h"
#include "shared/table.h"
#include "shared/text.h"

#include <set>

namespace cospot {

std::vector<PriorWeight> read_prior(std::istream &in, const std::string &file,
                                    const std::vector<ColumnAlias> &aliases) {
    TableReader table(in, file, {{"compound", true}, {"weight", true}}, aliases);
    std::vector<PriorWeight> weights;
    std::set<std::string> seen;
    for_each_row(table, [&] {
        const std::string_view name = table.required_text("compound", "a compound of the library");
        const double weight = table.number("weight", "a relative weight");
        if (weight <= 0.0 || weight > 1e6) {
            throw InputError(table.where("weight"), exact_text(weight),
                             "a weight above 0, up to a million");
        }
        if (!seen.insert(lower_ascii(name)).second) {
            throw InputError(table.where("compound"), in_quotes(name) + " again",
                             "each compound once");
        }
        weights.push_back({std::string(name), weight, table.where("compound")});
    });
    if (weights.empty()) {
        throw InputError({file, table.line(), ""}, "a header without rows", "one row a compound");
    }
    return weights;
}

} // namespace cospot
