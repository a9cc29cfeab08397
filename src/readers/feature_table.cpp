#include "readers/feature_table.h"

#include "readers/quantity_column.h"
#include "shared/number.h"
#include "shared/table.h"
#include "shared/text.h"

#include <map>
#include <utility>

namespace cospot {

namespace {

FeatureObservation read_observation(const TableReader &table) {
    FeatureObservation observation;
    observation.where = table.where("system");
    observation.system = table.required_text("system", "the name of a system");
    observation.quantity = read_quantity(table);
    observation.value = table.number("value", "a number");
    check_physical(observation.quantity, observation.value, table.where("value"));
    observation.uncertainty =
        table.optional_number("uncertainty", "a standard uncertainty").value_or(0.0);
    if (observation.uncertainty < 0.0) {
        throw InputError(table.where("uncertainty"), exact_text(observation.uncertainty),
                         "a standard uncertainty of 0 or more");
    }
    return observation;
}

} // namespace

FeatureSet read_feature_table(std::istream &in, const std::string &file) {
    TableReader table(in, file,
                      {{"sample", true},
                       {"feature", true},
                       {"system", true},
                       {"quantity", true},
                       {"value", true},
                       {"uncertainty", false},
                       {"area", false}});
    FeatureSet set;
    std::map<std::pair<std::string, std::string>, std::size_t> index_of;
    while (table.next()) {
        const std::string sample(table.text("sample"));
        const std::string name(table.required_text("feature", "the name of the spot or peak"));
        const auto [known, is_new] = index_of.try_emplace({sample, name}, set.features.size());
        if (is_new) {
            set.features.push_back({.sample = sample,
                                    .name = name,
                                    .observations = {},
                                    .retention_time_min = {},
                                    .area = {},
                                    .warnings = {}});
        }
        Feature &feature = set.features[known->second];
        feature.observations.push_back(read_observation(table));
        if (const auto area = table.optional_number("area", "a peak area")) {
            feature.area = area;
        }
    }
    if (set.features.empty()) {
        throw InputError({file, table.line(), ""}, "a header without rows",
                         "one row an observation");
    }
    for (const std::string &column : table.unused()) {
        set.notes.push_back("column " + in_quotes(column) + " is not used");
    }
    return set;
}

} // namespace cospot
