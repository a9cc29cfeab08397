#include "purity/confirmed.h"

#include "purity/identities.h"
#include "purity/named.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace cospot::purity {

namespace {

/// The features that may be the compound: those that the table names so, else those that fit it
/// clearly, else the best that fits at all.
std::vector<JudgedFeature *> features_of(JudgedSample &sample, const std::string &compound) {
    std::vector<JudgedFeature *> named;
    std::vector<JudgedFeature *> clear;
    JudgedFeature *best = nullptr;
    double most = kLeastForMain;
    for (std::size_t i = 0; i < sample.features.size(); ++i) {
        JudgedFeature &feature = sample.features[i];
        if (feature.role == Role::blank || i == sample.main) {
            continue;
        }
        if (feature.identity.is_named) { // the name decides
            if (is_named_so(feature, compound)) {
                named.push_back(&feature);
            }
            continue;
        }
        const double probability = probability_of(feature.identification, compound);
        if (probability >= kLeastForRival) {
            clear.push_back(&feature);
        }
        if (probability > most) {
            most = probability;
            best = &feature;
        }
    }
    if (!named.empty()) {
        return named;
    }
    if (clear.empty() && best != nullptr) {
        clear.push_back(best);
    }
    return clear;
}

std::vector<JudgedFeature *> features_of_declared(JudgedSample &sample) {
    std::vector<JudgedFeature *> features;
    if (sample.main) {
        features.push_back(&sample.features[*sample.main]);
    }
    for (const std::size_t rival : sample.rivals) {
        features.push_back(&sample.features[rival]);
    }
    return features;
}

std::string confirm(JudgedSample &sample, const std::string &compound) {
    const auto features =
        compound == sample.declared ? features_of_declared(sample) : features_of(sample, compound);
    if (features.empty()) {
        return "no spot or peak of the sample fits it";
    }
    if (features.size() > 1) {
        std::vector<std::string> names;
        for (const JudgedFeature *feature : features) {
            names.push_back(feature_text(feature->feature));
        }
        return fmt::format("it stays open which one it is: {}", fmt::join(names, " or "));
    }
    JudgedFeature &feature = *features.front();
    if (feature.identity.is_confirmed) {
        return fmt::format("{} is taken for {} already", feature_text(feature.feature),
                           feature.identity.name);
    }
    feature.identity.name = compound;
    feature.identity.compound = compound;
    feature.identity.probability = probability_of(feature.identification, compound);
    feature.identity.is_unlisted = false;
    feature.identity.is_confirmed = true;
    sample.confirmed.push_back(compound);
    return feature_text(feature.feature);
}

} // namespace

void set_confirmed(JudgedSample &sample, const std::vector<std::string> &confirmed) {
    for (const std::string &compound : confirmed) {
        sample.notes.push_back(fmt::format("{}: identity confirmed, as stated with --confirmed: {}",
                                           compound, confirm(sample, compound)));
    }
}

} // namespace cospot::purity
