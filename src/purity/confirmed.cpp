#include "purity/confirmed.h"

#include "document/probability_text.h"
#include "purity/identities.h"
#include "purity/named.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace cospot::purity {

namespace {

using Features = std::vector<JudgedFeature *>;

/// Whether the statement holds for the feature.
bool is_confirmed_at(const JudgedFeature &feature, const std::string &compound) {
    return feature.identity.is_named
               ? is_named_so(feature, compound) && !feature.identity.is_contradicted
               : is_likeliest(feature, compound);
}

/// Of the declared compound only its main feature and the rivals of it.
Features features_that_may_be(JudgedSample &sample, const std::string &compound) {
    const bool is_declared = compound == sample.declared;
    Features features;
    for (std::size_t i = 0; i < sample.features.size(); ++i) {
        const bool is_for_declared =
            sample.main == i ||
            std::find(sample.rivals.begin(), sample.rivals.end(), i) != sample.rivals.end();
        if (is_of_sample(sample.features[i].role) &&
            (is_declared ? is_for_declared : sample.main != i)) {
            features.push_back(&sample.features[i]);
        }
    }
    return features;
}

/// Those that the statement holds for; where the table names one so, only such.
Features features_confirmed(JudgedSample &sample, const std::string &compound) {
    Features found = features_that_may_be(sample, compound);
    const bool is_open_main = compound == sample.declared && !sample.rivals.empty();
    if (!is_open_main) {
        std::erase_if(found, [&](const auto *one) { return !is_confirmed_at(*one, compound); });
    }
    const auto is_named = [](const JudgedFeature *one) { return one->identity.is_named; };
    if (std::any_of(found.begin(), found.end(), is_named)) {
        std::erase_if(found, [&](const auto *one) { return !is_named(one); });
    }
    return found;
}

void confirm(JudgedSample &sample, JudgedFeature &feature, const std::string &compound) {
    feature.identity.name = compound;
    feature.identity.compound = compound;
    feature.identity.probability = probability_of(feature.identification, compound);
    feature.identity.is_unlisted = false;
    feature.identity.is_confirmed = true;
    sample.confirmed.push_back(compound);
}

/// Says of the feature that fits the compound best what is likelier there. Returns what the note
/// says; empty where no feature fits it at all.
std::string doubt(JudgedSample &sample, const std::string &compound) {
    JudgedFeature *best = nullptr;
    double most = kLeastForMain;
    for (JudgedFeature *feature : features_that_may_be(sample, compound)) {
        const double probability = probability_of(feature->identification, compound);
        const bool is_taken =
            feature->identity.is_confirmed || is_named_otherwise(*feature, compound);
        if (!is_taken && (is_named_so(*feature, compound) || probability >= most)) {
            most = std::max(most, probability);
            best = feature;
        }
    }
    if (best == nullptr) {
        return "";
    }
    const Likelier likelier = likelier_than(*best, compound);
    best->identification.warnings.push_back(fmt::format(
        "{} is stated with --confirmed, but {} is likelier here, {} against {}: the statement does "
        "not count for it",
        compound, likelier.name, probability_text(likelier.probability),
        probability_text(probability_of(best->identification, compound))));
    return fmt::format("not taken for {}, where {} is likelier", feature_text(best->feature),
                       likelier.name);
}

std::string joined_features(const Features &features) {
    std::vector<std::string> names;
    names.reserve(features.size());
    for (const JudgedFeature *feature : features) {
        names.push_back(feature_text(feature->feature));
    }
    return fmt::to_string(fmt::join(names, " or "));
}

} // namespace

void set_confirmed(JudgedSample &sample, const std::vector<std::string> &confirmed) {
    std::vector<Features> found;
    found.reserve(confirmed.size());
    for (const std::string &compound : confirmed) {
        found.push_back(features_confirmed(sample, compound));
    }
    for (std::size_t i = 0; i < confirmed.size(); ++i) { // before any doubt is raised
        if (found[i].size() == 1) {
            confirm(sample, *found[i].front(), confirmed[i]);
        }
    }
    std::vector<std::string> not_seen;
    for (std::size_t i = 0; i < confirmed.size(); ++i) {
        const std::string which =
            found[i].empty()       ? doubt(sample, confirmed[i])
            : found[i].size() == 1 ? joined_features(found[i])
                                   : "it stays open which one it is: " + joined_features(found[i]);
        if (which.empty()) {
            not_seen.push_back(confirmed[i]);
            continue;
        }
        sample.notes.push_back(fmt::format("{}: identity confirmed, as stated with --confirmed: {}",
                                           confirmed[i], which));
    }
    if (!not_seen.empty()) {
        sample.notes.push_back(
            fmt::format("stated with --confirmed, but likeliest nowhere in the sample: {}",
                        fmt::join(not_seen, ", ")));
    }
}

} // namespace cospot::purity
