#include "identify/identify_document.h"

#include "document/caution.h"
#include "document/cells.h"
#include "identification/alternatives.h"
#include "identify/feature_figures.h"
#include "identify/feature_section.h"
#include "identify/feature_words.h"
#include "identify/identify_data.h"
#include "shared/text.h"
#include "shared/value_with_spread.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kMostInFull = 300;  ///< more than anybody reads, a page of a few MB
constexpr std::size_t kMaxStructures = 3; ///< a feature
constexpr double kWorthDrawing = 0.01;    ///< probability

using Features = std::span<const AnsweredFeature>;

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
    std::string text;
    for (const FeatureObservation &observation : feature.observations) {
        text += (text.empty() ? "" : "; ") + reading_of(observation) + " on " + observation.system;
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

Table overview(Features features) {
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

/// The first candidates, with the numbers of the features that they are proposed for.
Structures structures_of(Features features) {
    Structures drawn;
    for (std::size_t i = 0; i < features.size(); ++i) {
        const auto &candidates = features[i].found.candidates;
        for (std::size_t c = 0; c < std::min(kMaxStructures, candidates.size()); ++c) {
            const ProposedCompound &candidate = candidates[c];
            if ((c > 0 && candidate.probability < kWorthDrawing) || candidate.smiles.empty()) {
                continue;
            }
            auto known = std::find_if(
                drawn.compounds.begin(), drawn.compounds.end(),
                [&](const DrawnCompound &one) { return one.smiles == candidate.smiles; });
            if (known == drawn.compounds.end()) {
                known = drawn.compounds.insert(known, {candidate.name, candidate.smiles, "for "});
            } else {
                known->note += ", ";
            }
            known->note += fmt::to_string(i + 1);
        }
    }
    return drawn;
}

std::set<std::string> samples_of(Features features) {
    std::set<std::string> samples;
    for (const AnsweredFeature &one : features) {
        samples.insert(one.feature->sample);
    }
    return samples;
}

/// "flask 2: which compounds its spots may be"
std::string title_of(Features features) {
    const std::set<std::string> samples = samples_of(features);
    const Feature &first = *features.front().feature;
    const std::string what = first.plate                ? "spots"
                             : first.retention_time_min ? "peaks"
                                                        : "features";
    if (samples.size() > 1) {
        return fmt::format("Which compounds the {} of {} samples may be", what, samples.size());
    }
    return samples.begin()->empty()
               ? fmt::format("Which compounds the {} may be", what)
               : fmt::format("{}: which compounds its {} may be", *samples.begin(), what);
}

/// The published levels of identification, once where all features have the same.
void add_levels(std::vector<Block> &blocks, Features features) {
    std::set<std::string> levels;
    for (const AnsweredFeature &one : features) {
        levels.insert(one.found.level);
    }
    for (const std::string &level : levels) {
        std::string which;
        for (std::size_t i = 0; i < features.size() && levels.size() > 1; ++i) {
            if (features[i].found.level == level) {
                which += (which.empty() ? " of " : ", ") + fmt::to_string(i + 1);
            }
        }
        blocks.emplace_back(Paragraph{fmt::format("Level of identification{}: {}.", which, level),
                                      Paragraph::Role::small});
    }
}

/// A table of all features beside the pictures of plates and runs: before them where there are
/// several.
void add_overview(std::vector<Block> &blocks, Features features) {
    std::vector<Figure> figures = feature_figures(features);
    const bool is_one_picture = figures.size() < 2;
    const auto add_figures = [&] {
        for (Figure &figure : figures) {
            blocks.emplace_back(std::move(figure));
        }
    };
    if (is_one_picture) {
        add_figures();
    }
    if (features.size() > 1) {
        const FeatureObservation *system = in_common(features).system;
        blocks.emplace_back(
            Section{system == nullptr ? "At a glance" : "At a glance: on " + system->system,
                    "",
                    {},
                    {overview(features)}});
    }
    if (!is_one_picture) {
        add_figures();
    }
}

} // namespace

Document identify_document(Features features) {
    Document document{.title = "Which compounds these may be",
                      .cautions = {std::string(kRetentionIsNoProof)},
                      .data = identify_data(features)};
    if (features.empty()) {
        return document;
    }
    document.title = title_of(features);
    document.lead = counted(features.size(), "feature") + ", compared with the library.";
    add_overview(document.blocks, features);
    if (features.size() == 1) {
        document.blocks.emplace_back(feature_section(features.front(), 1));
    } else {
        Section each{"One by one", "", {}, {}};
        const std::size_t shown = std::min(kMostInFull, features.size());
        for (std::size_t i = 0; i < shown; ++i) {
            each.blocks.emplace_back(feature_section(features[i], i + 1));
        }
        if (shown < features.size()) {
            each.blocks.emplace_back(Paragraph{fmt::format(
                "The first {} of {} features in full; the table above and the reports in CSV and "
                "JSON have all of them.",
                shown, features.size())});
        }
        document.blocks.emplace_back(std::move(each));
    }
    add_levels(document.blocks, features);
    document.blocks.emplace_back(Details{
        {Section{"Structures of the first candidates", "", {}, {structures_of(features)}}}});
    return document;
}

} // namespace cospot
