#include "purity/named.h"

#include "library/names.h"
#include "purity/identities.h"
#include "purity/verdicts.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot::purity {

namespace {

bool has_ppm(const Feature &feature) {
    return feature.ppm || feature.is_ppm_below;
}

bool contradicts(const JudgedFeature &feature, const Identity &by_retention, bool is_candidate,
                 const std::string &compound) {
    if (!by_retention.is_judged) {
        return false;
    }
    return is_candidate ? probability_of(feature.identification, compound) < kLeastForMain
                        : is_settled(by_retention);
}

} // namespace

void set_name(JudgedFeature &feature, const LibraryEvidence &evidence,
              library::Database &database) {
    const std::string &name = feature.feature.named;
    if (name.empty()) {
        return;
    }
    const auto &observations = feature.feature.observations;
    const auto held = compound_if_named(
        database, name, observations.empty() ? Where{} : observations.front().where);
    Identity identity;
    identity.name = held ? held->name : name;
    identity.compound = identity.name;
    identity.inchikey = held ? held->inchikey : "";
    identity.is_unlisted = false;
    identity.is_named = true;
    identity.is_judged = feature.identity.is_judged;
    identity.probability = probability_of(feature.identification, identity.name);
    identity.by_retention = proposal_text(feature.identity);
    const bool is_candidate = held && index_of_compound(evidence, held->id);
    identity.is_contradicted = contradicts(feature, feature.identity, is_candidate, identity.name);
    if (identity.is_contradicted) {
        feature.identification.warnings.push_back(
            fmt::format("the table names it {}, but its retention speaks against that: {}",
                        identity.name, identity.by_retention));
    }
    feature.identity = std::move(identity);
}

bool is_named_otherwise(const JudgedFeature &feature, const std::string &compound) {
    return feature.identity.is_named && feature.identity.compound != compound;
}

bool is_named_so(const JudgedFeature &feature, const std::string &compound) {
    return feature.identity.is_named && feature.identity.compound == compound;
}

std::vector<bool> are_of_standards(std::span<const std::vector<const Feature *>> samples) {
    std::vector<bool> found;
    bool any_amounts = false;
    for (const std::vector<const Feature *> &sample : samples) {
        const bool has_amounts = std::any_of(sample.begin(), sample.end(),
                                             [](const Feature *one) { return has_ppm(*one); });
        any_amounts = any_amounts || has_amounts;
        found.push_back(!has_amounts &&
                        std::all_of(sample.begin(), sample.end(),
                                    [](const Feature *one) { return !one->named.empty(); }));
    }
    return any_amounts ? found : std::vector<bool>(samples.size());
}

std::string names_words(std::span<const std::vector<const Feature *>> samples) {
    std::size_t count = 0;
    for (const std::vector<const Feature *> &sample : samples) {
        count += static_cast<std::size_t>(std::count_if(
            sample.begin(), sample.end(), [](const Feature *one) { return !one->named.empty(); }));
    }
    return count == 0
               ? ""
               : fmt::format("{} judged by the name in the table: your statement, against which "
                             "retention is held. A peak with the role standard is none of the "
                             "sample.",
                             count == 1 ? "1 peak is" : fmt::format("{} peaks are", count));
}

} // namespace cospot::purity
