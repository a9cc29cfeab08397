#include "purity/likely_solvents.h"

#include "document/probability_text.h"
#include "purity/verdicts.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot::purity {

namespace {

constexpr double kNearlyAll = 0.95; ///< of what the library can propose

double none_of_the_library(const Identification &found) {
    return found.unlisted + found.not_measured;
}

} // namespace

std::vector<LikelySolvent> likely_solvents(const JudgedFeature &feature) {
    const Identification &found = feature.identification;
    if (feature.identity.is_named || feature.identity.is_confirmed) {
        return {};
    }
    std::vector<const ProposedCompound *> candidates;
    for (const ProposedCompound &candidate : found.candidates) {
        candidates.push_back(&candidate);
    }
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](const auto *a, const auto *b) { return a->probability > b->probability; });
    const double enough = std::max(kSettled, kNearlyAll * (1.0 - none_of_the_library(found)));
    std::vector<LikelySolvent> solvents;
    double together = 0.0;
    for (const ProposedCompound *candidate : candidates) {
        const SolventLimit *limit = solvent_limit(candidate->inchikey);
        if (limit == nullptr) {
            return {};
        }
        solvents.push_back({candidate->name, candidate->probability, limit});
        together += candidate->probability;
        if (together >= enough) {
            return solvents;
        }
    }
    return {};
}

std::string words_for(const std::vector<LikelySolvent> &solvents, const JudgedFeature &feature,
                      std::optional<double> dose_mg_day) {
    std::string text;
    for (const LikelySolvent &one : solvents) {
        text += fmt::format("{}{} ({}, limit {} ppm)", text.empty() ? "" : " or ", one.name,
                            probability_text(one.probability),
                            to_text(limit_at(*one.limit, dose_mg_day)));
    }
    return text + fmt::format("; a compound that the library lacks: {}",
                              probability_text(none_of_the_library(feature.identification)));
}

} // namespace cospot::purity
