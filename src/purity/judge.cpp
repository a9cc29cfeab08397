#include "purity/judge.h"

#include "purity/blank.h"
#include "purity/blank_scale.h"
#include "purity/confirmed.h"
#include "purity/suitability.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <limits>

namespace cospot::purity {

namespace {

std::vector<double> times_of(std::span<const Feature> features) {
    std::vector<double> times;
    for (const Feature &feature : features) {
        if (feature.retention_time_min) {
            times.push_back(*feature.retention_time_min);
        }
    }
    return times;
}

/// Peaks by their times; spots and values of a long table by the quantity and system of `key`.
Located located(const Feature &feature, const FeatureObservation *key,
                const std::function<double(double)> &on_sample) {
    if (feature.retention_time_min) {
        const double time = on_sample(*feature.retention_time_min);
        return {time, time_tolerance_min(time, feature.shape.width_half_min), feature.area};
    }
    for (const FeatureObservation &one : feature.observations) {
        if (key != nullptr && one.system == key->system && one.quantity == key->quantity) {
            return {one.value, value_tolerance(one.quantity, one.value), feature.area};
        }
    }
    return {std::numeric_limits<double>::quiet_NaN(), 0.0, feature.area};
}

/// Why the feature is nothing that the column kept; empty where it was.
std::string why_unretained(const Feature &feature) {
    constexpr double reads_as_none = 0.005; // 0.00 in two decimals
    if (!feature.unretained.empty() || feature.retention_time_min) {
        return feature.unretained;
    }
    for (const FeatureObservation &one : feature.observations) {
        if ((one.quantity == Quantity::k || one.quantity == Quantity::r) &&
            one.value < reads_as_none) {
            return fmt::format("{} of {:.2f}", to_text(one.quantity), one.value);
        }
    }
    return "";
}

std::vector<std::optional<BlankMatch>> matches_of(const SampleInput &input,
                                                  std::vector<std::string> &notes) {
    if (input.blank.features.empty()) {
        return std::vector<std::optional<BlankMatch>>(input.features.size());
    }
    const auto times = times_of(input.features);
    const auto own = input.blank.scales.find(input.blank.features.front().run);
    const RunScale of_blank = own == input.blank.scales.end() ? RunScale{} : own->second;
    const BlankScale scale =
        blank_scale(input.scale, of_blank, times, times_of(input.blank.features));
    if (!times.empty()) {
        notes.push_back(scale.note);
    }
    const auto first = std::find_if(input.features.begin(), input.features.end(),
                                    [](const Feature &one) { return !one.observations.empty(); });
    const FeatureObservation *key =
        first == input.features.end() ? nullptr : &first->observations.front();
    std::vector<Located> sample;
    std::vector<Located> blank;
    for (const Feature &feature : input.features) {
        sample.push_back(located(feature, key, [](double time) { return time; }));
    }
    for (const Feature &feature : input.blank.features) {
        blank.push_back(located(feature, key, scale.on_sample));
    }
    return subtract_blank(sample, blank);
}

/// What a feature counts as before it is identified: `unretained` and `blank` are none of the
/// sample's.
Role role_of(const Feature &feature, const std::optional<BlankMatch> &match) {
    return !why_unretained(feature).empty() ? Role::unretained
           : match && match->explains_all   ? Role::blank
                                            : Role::impurity;
}

/// A feature that takes no part in anything.
JudgedFeature set_aside(const Feature &feature, Role role, std::vector<std::string> &notes) {
    JudgedFeature aside;
    aside.feature = feature;
    aside.role = role;
    aside.area = 0.0;
    if (role == Role::blank) {
        aside.actions.emplace_back("none: the blank shows it too");
        return aside;
    }
    aside.identity.name = "unretained";
    aside.actions.emplace_back("none: not retained");
    notes.push_back(fmt::format("{}: {}: not retained, so it is no impurity and its area does not "
                                "count. What leaves with it stays unseen",
                                feature_text(feature), why_unretained(feature)));
    return aside;
}

/// The features in the order of the input: those that are none of the sample's beside those that
/// were identified.
std::vector<JudgedFeature> with_set_aside(const SampleInput &input,
                                          const std::vector<std::optional<BlankMatch>> &matches,
                                          std::vector<JudgedFeature> identified,
                                          std::vector<std::string> &notes) {
    std::vector<JudgedFeature> all;
    std::size_t next = 0;
    for (std::size_t i = 0; i < input.features.size(); ++i) {
        const Role role = role_of(input.features[i], matches[i]);
        if (!is_of_sample(role)) {
            all.push_back(set_aside(input.features[i], role, notes));
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

void say_what_solvents_hide(JudgedSample &sample, const SolventQuestion &question) {
    sample.hidden.push_back(
        question.detection_ppm
            ? fmt::format("Below the detection limit of {:g} ppm nothing is seen.",
                          *question.detection_ppm)
            : "The detection limit was not given: what lies below it is not seen.");
    const bool any_by_response =
        std::any_of(sample.features.begin(), sample.features.end(),
                    [](const JudgedFeature &one) { return one.response_is_held; });
    sample.hidden.emplace_back(
        any_by_response ? "ppm are as given, or from areas with the response factors that the "
                          "library holds, against the known amount of a standard in the run."
                        : "ppm are as given: by your own calibration.");
}

void say_what_hides(JudgedSample &sample, const Question &question, const LibraryEvidence &evidence,
                    library::Database &database) {
    const auto seen = std::count_if(sample.features.begin(), sample.features.end(),
                                    [](const auto &one) { return is_of_sample(one.role); });
    if (seen == 1) {
        sample.hidden.push_back(fmt::format(
            "One {} seen in this system: that does not make the sample pure.",
            sample.features.front().feature.retention_time_min ? "peak was" : "spot was"));
    }
    if (sample.main && !sample.asks_solvents) {
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
    if (question.detection.detector != nullptr) {
        sample.hidden.push_back(question.detection.detector->blind);
    }
    if (sample.asks_solvents) {
        say_what_solvents_hide(sample, *question.solvents);
        return;
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

/// What relative retention counts from, whose own ratio is 1 without any error, and which nothing
/// else was seen of.
bool is_reference(const Feature &feature) {
    return !feature.observations.empty() &&
           std::all_of(feature.observations.begin(), feature.observations.end(),
                       [](const FeatureObservation &one) {
                           return is_relative(one.quantity) && one.value == 1.0 &&
                                  one.uncertainty == 0.0;
                       });
}

/// The sample with its features identified, those of the blank beside them.
JudgedSample identified_sample(const SampleInput &input, const Question &question,
                               const LibraryEvidence &evidence, library::Database &database,
                               const IdentificationOptions &how) {
    JudgedSample sample;
    sample.name = input.features.front().sample;
    sample.system = input.system;
    sample.file = input.file;
    sample.declared = question.declaration.declared;
    sample.asks_solvents = question.solvents.has_value();
    const auto matches = matches_of(input, sample.notes);
    std::vector<Feature> own;
    for (std::size_t i = 0; i < input.features.size(); ++i) {
        if (is_of_sample(role_of(input.features[i], matches[i]))) {
            own.push_back(input.features[i]);
        }
    }
    if (own.empty()) {
        throw InputError({input.file, 0, ""},
                         "nothing but what the blank shows as well or what is not retained",
                         "at least one spot or peak of the sample's own");
    }
    sample.features = with_set_aside(
        input, matches,
        with_identities(own, question.declaration, evidence, database, how, sample.notes),
        sample.notes);
    choose_main(sample);
    set_confirmed(sample, question.declaration.confirmed);
    return sample;
}

/// What was not detected is below the detection limit that the user gives; below the limit of
/// quantitation, which is higher, says less.
void set_undetected(JudgedSample &sample, double detection_ppm) {
    for (JudgedFeature &feature : sample.features) {
        if (feature.feature.is_ppm_undetected) {
            feature.feature.ppm_below = detection_ppm;
            sample.notes.push_back(
                fmt::format("{}: not detected, so it counts as below the detection limit of {:g} "
                            "ppm",
                            feature_text(feature.feature), detection_ppm));
        }
    }
}

/// Adds the verdicts on the residual solvents.
void judge_solvents(JudgedSample &sample, const SampleInput &input, const Question &question) {
    if (question.solvents->detection_ppm) {
        set_undetected(sample, *question.solvents->detection_ppm);
    }
    set_ppm(sample, input.standards, question.relative_response, input.file);
    sample.verdicts = solvent_verdicts(sample, *question.solvents);
}

/// Adds the verdicts on the declared compound and its impurities.
void judge_impurities(JudgedSample &sample, const SampleInput &input, const Question &question) {
    sample.main_is_assumed =
        sample.main && !input.scale.assumed_reference.empty() &&
        sample.features[*sample.main].feature.name == input.scale.assumed_reference;
    sample.main_is_reference = sample.main && is_reference(sample.features[*sample.main].feature);
    set_relative_retention(sample, input.scale.hold_up_min);
    set_amounts(sample, question.response_of, question.limits.rules, question.limits.dose_mg,
                input.file);
    sample.verdicts.push_back(declared_verdict(sample));
    const auto limits = limit_verdicts(sample, question.limits);
    sample.verdicts.insert(sample.verdicts.end(), limits.begin(), limits.end());
    const auto suitability =
        suitability_verdicts(sample, question.limits.rules.suitability, usual_suitability());
    sample.verdicts.insert(sample.verdicts.end(), suitability.begin(), suitability.end());
}

} // namespace

JudgedSample judge(const SampleInput &input, const Question &question,
                   const LibraryEvidence &evidence, library::Database &database,
                   const IdentificationOptions &how) {
    JudgedSample sample = identified_sample(input, question, evidence, database, how);
    if (sample.asks_solvents) {
        judge_solvents(sample, input, question);
    } else {
        judge_impurities(sample, input, question);
    }
    say_what_hides(sample, question, evidence, database);
    return sample;
}

} // namespace cospot::purity
