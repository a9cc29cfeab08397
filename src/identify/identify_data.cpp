#include "identify/identify_data.h"

#include "identification/feature_json.h"
#include "model/matcher/basis_text.h"

#include <string>
#include <utility>

namespace cospot {

namespace {

/// What all rows of a feature begin with, up to the uncertainty.
std::vector<Datum> beginning(const Feature &feature) {
    std::vector<Datum> row{feature.sample, feature.name, Datum{}};
    if (feature.retention_time_min) {
        row.back() = *feature.retention_time_min;
    }
    if (feature.observations.size() == 1) {
        const FeatureObservation &only = feature.observations.front();
        row.insert(row.end(), {only.system, std::string(to_text(only.quantity)), only.value,
                               only.uncertainty});
    } else {
        row.resize(row.size() + 4);
    }
    return row;
}

} // namespace

DataTable identify_data(std::span<const AnsweredFeature> features) {
    DataTable data{{"sample", "feature", "tR", "system", "quantity", "value", "uncertainty", "rank",
                    "compound", "probability", "inchikey", "smiles", "basis", "expected", "spread",
                    "deviation"}};
    for (const AnsweredFeature &answered : features) {
        std::int64_t rank = 0;
        for (const ProposedCompound &candidate : answered.found.candidates) {
            const matcher::Comparison &worst = worst_comparison(candidate.comparisons);
            std::vector<Datum> row = beginning(*answered.feature);
            row.insert(row.end(),
                       {++rank, candidate.name, candidate.probability, candidate.inchikey,
                        candidate.smiles, std::string(to_text(worst.basis)), worst.expected,
                        worst.spread, worst.deviation});
            data.rows.push_back(std::move(row));
        }
        std::vector<Datum> row = beginning(*answered.feature);
        row.insert(row.end(), {Datum{}, std::string("unlisted"), answered.found.unlisted});
        row.resize(data.columns.size());
        data.rows.push_back(std::move(row));
    }
    return data;
}

} // namespace cospot
