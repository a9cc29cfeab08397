#include "readers/prior_table.h"

#include "shared/number.h"
#include "shared/table.h"

namespace cospot {

std::vector<PriorWeight> read_prior(std::istream &in, const std::string &file) {
    TableReader table(in, file, {{"compound", true}, {"weight", true}});
    std::vector<PriorWeight> weights;
    while (table.next()) {
        const std::string_view name = table.required_text("compound", "a compound of the library");
        const double weight = table.number("weight", "a relative weight");
        if (weight <= 0.0) {
            throw InputError(table.where("weight"), exact_text(weight), "a weight above 0");
        }
        weights.push_back({std::string(name), weight, table.where("compound")});
    }
    return weights;
}

} // namespace cospot
