#include "identify/seen_standards.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace cospot {

namespace {

/// A compound spotted on the plate, with the spot of the lane that is likeliest to be it.
struct SpottedCompound {
    std::size_t compound = 0; ///< index in the evidence
    std::string name;
    const Feature *spot = nullptr;
    double probability = 0.0; ///< that this spot is it
    SameOrNot verdict = SameOrNot::differs;
};

std::vector<SpottedCompound> spotted_compounds(const AnsweredSample &sample) {
    std::vector<SpottedCompound> all;
    for (const AnsweredFeature &one : sample.features) {
        if (!one.feature->plate) {
            continue;
        }
        for (const BesideStandard &standard : one.found.standards) {
            const auto known = std::find_if(all.begin(), all.end(), [&](const auto &before) {
                return before.compound == standard.compound;
            });
            if (known == all.end()) {
                all.push_back({standard.compound, standard.name, one.feature, standard.probability,
                               standard.verdict});
            } else if (standard.probability > known->probability) {
                known->spot = one.feature;
                known->probability = standard.probability;
                known->verdict = standard.verdict;
            }
        }
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const auto &a, const auto &b) { return a.name < b.name; });
    return all;
}

std::string spot_words(const Feature &spot) {
    if (!spot.name.starts_with("lane ")) {
        return "spot " + spot.name;
    }
    const std::size_t comma = spot.name.rfind(", "); // of a lane without a label
    return comma == std::string::npos ? spot.name : "spot " + spot.name.substr(comma + 2);
}

std::string lane_words(const Feature &feature) {
    const std::string lane = "lane " + feature.lane;
    return feature.sample.ends_with(lane) ? feature.sample
                                          : fmt::format("{}, {}", feature.sample, lane);
}

} // namespace

std::string seen_standards_words(const AnsweredSample &sample) {
    std::vector<std::string> seen;
    std::vector<std::string> open;
    std::vector<std::string> not_seen;
    for (const SpottedCompound &one : spotted_compounds(sample)) {
        switch (one.verdict) {
        case SameOrNot::runs_with:
            seen.push_back(fmt::format("{} ({})", one.name, spot_words(*one.spot)));
            break;
        case SameOrNot::cannot_be_told:
            open.push_back(fmt::format("{} ({})", one.name, spot_words(*one.spot)));
            break;
        case SameOrNot::differs:
            not_seen.push_back(one.name);
            break;
        }
    }
    std::vector<std::string> clauses;
    if (!seen.empty()) {
        clauses.push_back(joined(seen) + (seen.size() == 1 ? " is seen" : " are seen"));
    }
    if (!open.empty()) {
        clauses.push_back(joined(open) + " may be there or something else");
    }
    if (!not_seen.empty()) {
        clauses.push_back(fmt::format("{} {} not seen (no spot of this lane lies where {} ran)",
                                      joined(not_seen), not_seen.size() == 1 ? "is" : "are",
                                      not_seen.size() == 1 ? "it" : "they"));
    }
    return clauses.empty() ? ""
                           : fmt::format("{}: {}.", lane_words(*sample.features.front().feature),
                                         joined(clauses, "; "));
}

std::optional<Section> seen_standards_section(std::span<const AnsweredSample> samples) {
    std::vector<std::string> sentences;
    bool is_any_not_seen = false;
    for (const AnsweredSample &sample : samples) {
        if (std::string words = seen_standards_words(sample); !words.empty()) {
            is_any_not_seen |= words.find(" not seen (") != std::string::npos;
            sentences.push_back(std::move(words));
        }
    }
    if (sentences.empty()) {
        return std::nullopt;
    }
    Section section{"Compounds spotted on the plate", "", {}, {List{"", std::move(sentences)}}};
    if (is_any_not_seen) {
        section.blocks.emplace_back(Paragraph{kNotSeenIsNotGone, Paragraph::Role::small});
    }
    return section;
}

} // namespace cospot
