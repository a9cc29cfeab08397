#include "identify/overview.h"

#include "document/cells.h"
#include "identification/alternatives.h"
#include "identify/feature_section.h"
#include "identify/feature_words.h"
#include "shared/value_with_spread.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

namespace cospot {

namespace {

using Features = std::span<const AnsweredFeature>;

constexpr double kClear = 0.895; ///< is printed as 0.90: less is worth a look

// -- Samples -------------------------------------------------------------------------------------

/// Numbers of features by what is to be looked at.
struct ToLookAt {
    std::vector<std::size_t> not_compared;
    std::vector<std::size_t> unlisted;
    std::vector<std::size_t> open; ///< no alternative is clear
    std::vector<std::size_t> warned;
};

using Sentences = std::set<std::string>;

/// Warnings that all features have: of the library, not of a sample.
Sentences said_of_all(std::span<const AnsweredSample> samples) {
    const Identification &first = samples.front().features.front().found;
    Sentences common(first.warnings.begin(), first.warnings.end());
    for (const AnsweredSample &sample : samples) {
        for (const AnsweredFeature &one : sample.features) {
            std::erase_if(common, [&](const std::string &warning) {
                return std::count(one.found.warnings.begin(), one.found.warnings.end(), warning) ==
                       0;
            });
        }
    }
    return common;
}

ToLookAt to_look_at(const AnsweredSample &sample, const Sentences &of_all) {
    ToLookAt found;
    for (std::size_t i = 0; i < sample.features.size(); ++i) {
        const Identification &result = sample.features[i].found;
        const std::size_t number = sample.first + i;
        const auto alternatives = alternatives_of(result);
        if (alternatives.empty()) {
            found.not_compared.push_back(number);
        } else if (alternatives.front().probability < kClear) {
            found.open.push_back(number);
        } else if (alternatives.front().group == nullptr) {
            found.unlisted.push_back(number);
        }
        if (std::any_of(result.warnings.begin(), result.warnings.end(),
                        [&](const std::string &warning) { return !of_all.contains(warning); })) {
            found.warned.push_back(number);
        }
    }
    return found;
}

/// "open: 1, 3; unlisted: 2"
std::string words_of(const ToLookAt &found) {
    std::string text;
    const auto add = [&](const char *what, const std::vector<std::size_t> &numbers) {
        if (!numbers.empty()) {
            text +=
                fmt::format("{}{}: {}", text.empty() ? "" : "; ", what, fmt::join(numbers, ", "));
        }
    };
    add("open", found.open);
    add("unlisted", found.unlisted);
    add("not compared", found.not_compared);
    add("warnings", found.warned);
    return text;
}

/// The likeliest of each feature: "vanillin, unlisted and 2 more".
std::string likeliest_of(Features features) {
    constexpr std::size_t named = 3;
    std::string text;
    for (std::size_t i = 0; i < std::min(named, features.size()); ++i) {
        const auto alternatives = alternatives_of(features[i].found);
        text += i > 0 ? "; " : "";
        text += alternatives.empty() ? "not compared"
                                     : name_of(alternatives.front(), features[i].found);
    }
    return features.size() > named ? fmt::format("{}; {} more", text, features.size() - named)
                                   : text;
}

/// How sure the least sure of the likeliest is.
std::optional<double> least_probability(Features features) {
    std::optional<double> least;
    for (const AnsweredFeature &one : features) {
        const auto alternatives = alternatives_of(one.found);
        if (!alternatives.empty()) {
            least = std::min(least.value_or(1.0), alternatives.front().probability);
        }
    }
    return least;
}

Row sample_row(const AnsweredSample &sample, const Sentences &of_all, bool names_runs,
               bool has_sample_sections) {
    const Feature &first = *sample.features.front().feature;
    Cell name{first.sample.empty() ? first.name : first.sample};
    if (const std::string run = first.run + ": "; names_runs && name.text.starts_with(run)) {
        name.text.erase(0, run.size());
    }
    name.section = has_sample_sections ? sample_anchor(sample) : feature_anchor(sample.first);
    const auto least = least_probability(sample.features);
    std::string look = words_of(to_look_at(sample, of_all));
    const Emphasis emphasis = look.empty() ? Emphasis::none : Emphasis::strong;
    return {{{names_runs ? first.run : ""},
             std::move(name),
             {first.plate ? first.lane : ""},
             count_cell(sample.features.size()),
             {likeliest_of(sample.features)},
             least ? probability_cell(*least) : Cell{},
             {std::move(look), {}, emphasis}}};
}

// -- Features ------------------------------------------------------------------------------------

/// What the overview says once, since it is the same for all features.
struct InCommon {
    bool sample = true;
    const FeatureObservation *system = nullptr; ///< one system and quantity, one reading each
};

InCommon in_common(Features features) {
    InCommon common;
    bool is_one_system = true;
    for (const AnsweredFeature &one : features) {
        common.sample = common.sample && one.feature->sample == features.front().feature->sample;
        for (const FeatureObservation &observation : one.feature->observations) {
            if (common.system == nullptr) {
                common.system = &observation;
            }
            is_one_system = is_one_system && one.feature->observations.size() == 1 &&
                            observation.system == common.system->system &&
                            observation.quantity == common.system->quantity;
        }
    }
    if (!is_one_system) {
        common.system = nullptr;
    }
    return common;
}

Cell observed_cell(const Feature &feature, const InCommon &common) {
    if (feature.observations.empty()) {
        return {};
    }
    const FeatureObservation &first = feature.observations.front();
    if (common.system != nullptr) {
        return {with_spread(first.quantity, first.value, first.uncertainty), first.value};
    }
    if (feature.observations.size() == 1) {
        return {reading_of(first) + " on " + first.system};
    }
    std::string text; // on which systems stands with the feature itself
    for (const FeatureObservation &observation : feature.observations) {
        text += fmt::format("{}{} {}", text.empty() ? "" : "; ", to_text(observation.quantity),
                            shown(observation.quantity, observation.value));
    }
    return {std::move(text)};
}

Row overview_row(const AnsweredFeature &answered, std::size_t position, const InCommon &common) {
    const Feature &feature = *answered.feature;
    const Identification &found = answered.found;
    const std::string number = fmt::to_string(position);
    Row row{.cells = {{number, static_cast<double>(position)},
                      {common.sample ? feature.name : feature_name(feature),
                       {},
                       Emphasis::none,
                       feature_anchor(position)}},
            .mark = number};
    const bool has_time = feature.retention_time_min.has_value() &&
                          (common.system == nullptr || common.system->quantity != Quantity::tR);
    row.cells.push_back(has_time ? number_cell(feature.retention_time_min, 3) : Cell{});
    row.cells.push_back(observed_cell(feature, common));
    const auto alternatives = alternatives_of(found);
    if (alternatives.empty()) {
        row.cells.insert(row.cells.end(), {{"nothing to compare with"}, {}, {}});
    } else {
        const Alternative &first = alternatives.front();
        row.cells.insert(row.cells.end(), {{name_of(first, found), {}, Emphasis::strong},
                                           probability_cell(first.probability),
                                           probability_cell(found.unlisted)});
    }
    row.cells.push_back(found.warnings.empty()
                            ? Cell{}
                            : Cell{fmt::to_string(found.warnings.size()),
                                   static_cast<double>(found.warnings.size()), Emphasis::alarm});
    return row;
}

} // namespace

std::vector<AnsweredSample> answered_samples(Features features) {
    const auto key = [](const AnsweredFeature &one) {
        const Feature &feature = *one.feature;
        return std::tuple(feature.run, feature.plate ? feature.lane : "", feature.sample);
    };
    std::vector<AnsweredSample> samples;
    for (std::size_t begin = 0, end = 0; begin < features.size(); begin = end) {
        while (end < features.size() && key(features[end]) == key(features[begin])) {
            ++end;
        }
        samples.push_back({begin + 1, features.subspan(begin, end - begin)});
    }
    return samples;
}

std::string sample_anchor(const AnsweredSample &sample) {
    return fmt::format("sample-{}", sample.first);
}

Table sample_overview(std::span<const AnsweredSample> samples, bool has_sample_sections) {
    const Feature &first = *samples.front().features.front().feature;
    const bool is_one_each = std::all_of(samples.begin(), samples.end(), [](const auto &sample) {
        return sample.features.size() == 1;
    });
    const bool names_runs = std::any_of(samples.begin(), samples.end(), [&](const auto &sample) {
        const Feature &one = *sample.features.front().feature;
        return one.run != first.run && one.run != one.sample;
    });
    Table table{.label = "What each sample most likely holds",
                .caption = "\"Open\" means that no candidate reaches 0.90, \"unlisted\" that it is "
                           "probably none of the compounds compared",
                .columns = {{first.plate ? "Plate" : "Run"},
                            {"Sample"},
                            {"Lane", true},
                            {first.plate ? "Spots" : "Peaks", true},
                            {is_one_each ? "Likeliest" : "Likeliest of each"},
                            {is_one_each ? "Prob." : "Least prob.", true},
                            {"To look at (No.)"}},
                .heading_column = 1,
                .is_sortable = true};
    const Sentences of_all = said_of_all(samples);
    for (const AnsweredSample &sample : samples) {
        table.rows.push_back(sample_row(sample, of_all, names_runs, has_sample_sections));
    }
    return table;
}

const FeatureObservation *observation_in_common(Features features) {
    return in_common(features).system;
}

Table pair_overview(Features features) {
    Table table{.label = "Pairs of peaks",
                .caption = "Taken for one compound on both columns, by area and order",
                .columns = {{"Feature"},
                            {"tR, min", true},
                            {"Area %", true},
                            {"Pair"},
                            {"tR, min", true},
                            {"Area %", true},
                            {"Prob. of pair", true}}};
    for (const AnsweredFeature &one : features) {
        if (const auto &pair = one.feature->pair) {
            table.rows.push_back({{{feature_name(*one.feature)},
                                   number_cell(one.feature->retention_time_min, 3),
                                   number_cell(pair->first_percent, 1),
                                   {pair->name + " on " + pair->system},
                                   number_cell(pair->retention_time_min, 3),
                                   number_cell(pair->percent, 1),
                                   probability_cell(pair->probability)}});
        }
    }
    return table;
}

Table feature_overview(Features features) {
    const InCommon common = in_common(features);
    Table table{
        .label = "What each feature most likely is",
        .columns = {{"No.", true},
                    {"Feature"},
                    {"tR, min", true},
                    {common.system == nullptr ? "Observed"
                                              : std::string(to_text(common.system->quantity)),
                     common.system != nullptr},
                    {"Likeliest"},
                    {"Prob.", true},
                    {"Unlisted", true},
                    {"Warnings", true}},
        .heading_column = 1,
        .is_sortable = true};
    for (std::size_t i = 0; i < features.size(); ++i) {
        table.rows.push_back(overview_row(features[i], i + 1, common));
    }
    return table;
}

} // namespace cospot
