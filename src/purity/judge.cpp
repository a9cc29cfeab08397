#include "purity/judge.h"

#include "purity/blank.h"
#include "purity/suitability.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot::purity {

namespace {

constexpr double kRfTolerance = 0.02;

std::vector<Located> located(std::span<const Feature> features) {
    std::vector<Located> all;
    for (const Feature &feature : features) {
        if (feature.retention_time_min) {
            all.push_back(
                {*feature.retention_time_min,
                 time_tolerance_min(*feature.retention_time_min, feature.shape.width_half_min),
                 feature.area});
        } else {
            const bool seen = !feature.observations.empty();
            all.push_back(
                {seen ? feature.observations.front().value : -1.0, kRfTolerance, feature.area});
        }
    }
    return all;
}

/// The features in the order of the input: those of the blank beside those that were identified.
std::vector<JudgedFeature> with_blank(const SampleInput &input,
                                      const std::vector<std::optional<BlankMatch>> &matches,
                                      std::vector<JudgedFeature> identified,
                                      std::vector<std::string> &notes) {
    std::vector<JudgedFeature> all;
    std::size_t next = 0;
    for (std::size_t i = 0; i < input.features.size(); ++i) {
        if (matches[i] && matches[i]->explains_all) {
            JudgedFeature blank;
            blank.feature = input.features[i];
            blank.role = Role::blank;
            blank.area = 0.0;
            blank.actions.emplace_back("none: the blank shows it too");
            all.push_back(std::move(blank));
            continue;
        }
        all.push_back(std::move(identified[next++]));
        if (matches[i] && matches[i]->remaining_area) {
            all.back().area = matches[i]->remaining_area;
            notes.push_back(fmt::format("{}: the area of the blank was subtracted",
                                        feature_text(input.features[i])));
        }
    }
    return all;
}

std::string listed(const std::vector<std::string> &names) {
    constexpr std::size_t most = 6;
    std::string text;
    for (std::size_t i = 0; i < std::min(most, names.size()); ++i) {
        text += (i > 0 ? ", " : "") + names[i];
    }
    return names.size() > most ? text + fmt::format(" and {} more", names.size() - most) : text;
}

void say_what_hides(JudgedSample &sample, const Question &question, const LibraryEvidence &evidence,
                    library::Database &database) {
    const auto seen = std::count_if(sample.features.begin(), sample.features.end(),
                                    [](const auto &one) { return one.role != Role::blank; });
    if (seen == 1) {
        sample.hidden.push_back(fmt::format(
            "One {} seen in this system: that does not make the sample pure.",
            sample.features.front().feature.retention_time_min ? "peak was" : "spot was"));
    }
    if (sample.main) {
        const auto near = compounds_at(sample.features[*sample.main].feature, sample.declared,
                                       evidence, database);
        sample.hidden.push_back(
            near.empty() ? "No other compound of the library is expected at its place here; one "
                           "that the library lacks may be."
                         : "Would hide under the declared compound here: " + listed(near) + ".");
    }
    const auto unseen = hardly_seen(question.declaration, question.detection, database);
    if (!unseen.empty()) {
        sample.hidden.push_back("Expected, but hardly to be seen here: " + listed(unseen) + ".");
    }
    const auto detection = question.limits.detection_percent;
    sample.hidden.push_back(
        detection ? fmt::format("Below the detection limit of {:g} % nothing is seen.", *detection)
                  : "The detection limit was not given: what lies below it is not seen.");
    if (sample.impurities_per_cent) {
        const bool any_held = std::any_of(sample.features.begin(), sample.features.end(),
                                          [](const auto &one) { return one.response_is_held; });
        sample.hidden.emplace_back(
            any_held ? "Per cent are of areas, corrected by the response factors that the library "
                       "holds; without one, area per cent is not mass per cent."
                     : "Per cent are of areas: area per cent is not mass per cent.");
    }
}

} // namespace

JudgedSample judge(const SampleInput &input, const Question &question,
                   const LibraryEvidence &evidence, library::Database &database,
                   const IdentificationOptions &how) {
    JudgedSample sample;
    sample.name = input.features.front().sample;
    sample.declared = question.declaration.declared;
    const auto matches = subtract_blank(located(input.features), located(input.blank));
    std::vector<Feature> own;
    for (std::size_t i = 0; i < input.features.size(); ++i) {
        if (!matches[i] || !matches[i]->explains_all) {
            own.push_back(input.features[i]);
        }
    }
    if (own.empty()) {
        throw InputError({input.file, 0, ""}, "nothing that the blank does not show as well",
                         "at least one spot or peak of the sample's own");
    }
    sample.features = with_blank(
        input, matches,
        with_identities(own, question.declaration, evidence, database, how, sample.notes),
        sample.notes);
    choose_main(sample);
    set_relative_retention(sample, input.hold_up_min);
    set_amounts(sample, question.response_of, question.limits.rules, question.limits.dose_mg,
                input.file);
    sample.verdicts.push_back(declared_verdict(sample));
    const auto limits = limit_verdicts(sample, question.limits);
    sample.verdicts.insert(sample.verdicts.end(), limits.begin(), limits.end());
    const auto suitability =
        suitability_verdicts(sample, question.limits.rules.suitability, usual_suitability());
    sample.verdicts.insert(sample.verdicts.end(), suitability.begin(), suitability.end());
    say_what_hides(sample, question, evidence, database);
    return sample;
}

} // namespace cospot::purity
