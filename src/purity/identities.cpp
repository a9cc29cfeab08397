#include "purity/identities.h"

#include "purity/named.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot::purity {

namespace {

constexpr double kExpectedShare = 0.5; ///< of the weight of the declared compound

std::string joined_names(const matcher::Group &group, const Identification &identification) {
    std::string names;
    for (const std::size_t member : group.members) {
        names += (names.empty() ? "" : " or ") + identification.candidates[member].name;
    }
    if (group.not_listed > 0) {
        names += fmt::format(" or {} more", group.not_listed);
    }
    return names;
}

Identity identity_of(const Identification &identification, const Declaration &declaration) {
    Identity identity;
    if (identification.candidates.empty()) {
        identity.name = "not judged";
        identity.is_judged = false;
        return identity;
    }
    identity.probability = identification.unlisted;
    if (identification.groups.empty() ||
        identification.groups.front().probability <
            identification.unlisted + identification.not_measured) {
        return identity;
    }
    const matcher::Group &group = identification.groups.front();
    identity.name = joined_names(group, identification);
    identity.compound = identification.candidates[group.members.front()].name;
    identity.probability = group.probability;
    identity.is_unlisted = false;
    identity.is_expected =
        std::any_of(group.members.begin(), group.members.end(), [&](std::size_t member) {
            const std::string &name = identification.candidates[member].name;
            return std::find(declaration.expected.begin(), declaration.expected.end(), name) !=
                   declaration.expected.end();
        });
    return identity;
}

} // namespace

double probability_of(const Identification &identification, const std::string &compound) {
    for (const ProposedCompound &candidate : identification.candidates) {
        if (candidate.name == compound) {
            return candidate.probability;
        }
    }
    return 0.0;
}

Likelier likelier_than(const JudgedFeature &feature, const std::string &compound) {
    const Identification &found = feature.identification;
    Likelier likelier{"a compound that the library lacks", found.unlisted + found.not_measured};
    for (const ProposedCompound &candidate : found.candidates) {
        if (candidate.name != compound && candidate.probability > likelier.probability) {
            likelier = {candidate.name, candidate.probability};
        }
    }
    return likelier;
}

bool is_likeliest(const JudgedFeature &feature, const std::string &compound) {
    return probability_of(feature.identification, compound) >
           likelier_than(feature, compound).probability;
}

matcher::Prior prior_of(const Declaration &declaration, const LibraryEvidence &evidence,
                        double unlisted) {
    matcher::Prior prior;
    prior.unlisted = unlisted;
    prior.weights.assign(compound_count(evidence), 1.0);
    const double all_others = std::max(1.0, static_cast<double>(prior.weights.size()) - 1.0);
    const auto weigh = [&](library::CompoundId id, double weight) {
        if (const auto index = index_of_compound(evidence, id)) {
            prior.weights[*index] = weight;
        }
    };
    for (const library::CompoundId id : declaration.expected_ids) {
        weigh(id, std::max(1.0, kExpectedShare * all_others));
    }
    weigh(declaration.declared_id, all_others);
    return prior;
}

std::vector<JudgedFeature>
with_identities(std::span<const Feature> features, const Declaration &declaration,
                const LibraryEvidence &evidence, library::Database &database,
                const IdentificationOptions &how, std::vector<std::string> &notes) {
    KnownCompounds compounds(evidence, database);
    RunIdentification run = identify_run(all_of(features), evidence, compounds, how);
    SampleIdentification &identified = run.samples.front(); // one lane or sample
    notes.insert(notes.end(), run.notes.begin(), run.notes.end());
    notes.insert(notes.end(), identified.notes.begin(), identified.notes.end());
    std::vector<JudgedFeature> judged;
    for (std::size_t i = 0; i < features.size(); ++i) {
        JudgedFeature one;
        one.feature = features[i];
        one.identification = std::move(identified.features[i]);
        one.identity = identity_of(one.identification, declaration);
        one.declared_probability = probability_of(one.identification, declaration.declared);
        one.area = one.feature.area;
        set_name(one, evidence, database);
        judged.push_back(std::move(one));
    }
    return judged;
}

void choose_main(JudgedSample &sample) {
    const bool any_named =
        std::any_of(sample.features.begin(), sample.features.end(), [&](const auto &feature) {
            return is_of_sample(feature.role) && is_named_so(feature, sample.declared);
        });
    const auto may_be = [&](const JudgedFeature &feature) {
        return is_of_sample(feature.role) &&
               (any_named ? is_named_so(feature, sample.declared)
                          : !is_named_otherwise(feature, sample.declared) &&
                                (!sample.asks_solvents || is_likeliest(feature, sample.declared)));
    };
    double best = any_named ? -1.0 : kLeastForMain;
    for (std::size_t i = 0; i < sample.features.size(); ++i) {
        const JudgedFeature &feature = sample.features[i];
        if (may_be(feature) && feature.declared_probability > best) {
            best = feature.declared_probability;
            sample.main = i;
        }
    }
    if (!sample.main) {
        return;
    }
    sample.features[*sample.main].role = Role::declared;
    for (std::size_t i = 0; i < sample.features.size(); ++i) {
        const JudgedFeature &feature = sample.features[i];
        if (i != *sample.main && may_be(feature) &&
            (any_named || feature.declared_probability >= kLeastForRival)) {
            sample.rivals.push_back(i);
        }
    }
}

} // namespace cospot::purity
