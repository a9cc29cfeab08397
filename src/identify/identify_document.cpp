#include "identify/identify_document.h"

#include "document/caution.h"
#include "identify/feature_figures.h"
#include "identify/feature_section.h"
#include "identify/identify_data.h"
#include "identify/overview.h"
#include "identify/seen_standards.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <string>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kMostInFull = 300;  ///< more than anybody reads, a page of a few MB
constexpr std::size_t kMaxStructures = 3; ///< a feature
constexpr double kWorthDrawing = 0.01;    ///< probability

using Features = std::span<const AnsweredFeature>;

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

/// Tables of all samples and features beside the pictures of plates and runs: before them where
/// there are several.
void add_overview(std::vector<Block> &blocks, Features features,
                  std::span<const AnsweredSample> samples) {
    std::vector<Figure> figures = feature_figures(features, 1);
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
        const FeatureObservation *common = observation_in_common(features);
        Section glance{
            common == nullptr ? "At a glance" : "At a glance: on " + common->system, "", {}, {}};
        if (samples.size() > 1) {
            glance.blocks.emplace_back(sample_overview(samples, false));
        }
        if (features.size() > samples.size()) {
            glance.blocks.emplace_back(feature_overview(features));
        }
        if (Table pairs = pair_overview(features); !pairs.rows.empty()) {
            glance.blocks.emplace_back(std::move(pairs));
        }
        blocks.emplace_back(std::move(glance));
    }
    if (!is_one_picture) {
        add_figures();
    }
}

/// Each feature with its candidates; the first ones where they are too many to be read.
void add_features(std::vector<Block> &blocks, Features features) {
    if (features.size() == 1) {
        blocks.emplace_back(feature_section(features.front(), 1));
        return;
    }
    Section each{"One by one", "", {}, {}};
    const std::size_t shown = std::min(kMostInFull, features.size());
    for (std::size_t i = 0; i < shown; ++i) {
        each.blocks.emplace_back(feature_section(features[i], i + 1));
    }
    if (shown < features.size()) {
        each.blocks.emplace_back(Paragraph{fmt::format(
            "The first {} of {} features in full; the table above and the reports in CSV and JSON "
            "have all of them.",
            shown, features.size())});
    }
    blocks.emplace_back(std::move(each));
}

/// A sheet for each sample, to be handed out by itself: its picture, its features without the
/// reasons, the caution.
void add_sheets(std::vector<Block> &blocks, std::span<const AnsweredSample> samples) {
    blocks.emplace_back(Section{"At a glance", "", {}, {sample_overview(samples, true)}});
    for (const AnsweredSample &sample : samples) {
        const Feature &first = *sample.features.front().feature;
        Section sheet{.heading = first.sample.empty() ? "Sample" : first.sample,
                      .anchor = sample_anchor(sample),
                      .blocks = {},
                      .starts_sheet = true};
        for (Figure &figure : feature_figures(sample.features, sample.first)) {
            sheet.blocks.emplace_back(std::move(figure));
        }
        for (std::size_t i = 0; i < sample.features.size(); ++i) {
            sheet.blocks.emplace_back(brief_feature_section(sample.features[i], sample.first + i));
        }
        if (auto seen = seen_standards_section({&sample, 1})) {
            std::move(seen->blocks.begin(), seen->blocks.end(), std::back_inserter(sheet.blocks));
        }
        sheet.blocks.emplace_back(
            Paragraph{std::string(kRetentionIsNoProof), Paragraph::Role::small});
        blocks.emplace_back(std::move(sheet));
    }
}

} // namespace

Document identify_document(Features features, bool has_sheets, std::span<const std::string> lead) {
    Document document{.title = "Which compounds these may be",
                      .cautions = {std::string(kRetentionIsNoProof)},
                      .data = identify_data(features)};
    if (features.empty()) {
        return document;
    }
    const std::vector<AnsweredSample> samples = answered_samples(features);
    document.title = title_of(features);
    document.lead = counted(features.size(), "feature") + ", compared with the library.";
    for (const std::string &sentence : lead) {
        document.blocks.emplace_back(Paragraph{sentence});
    }
    if (has_sheets) {
        add_sheets(document.blocks, samples);
    } else {
        if (auto seen = seen_standards_section(samples)) {
            document.blocks.emplace_back(std::move(*seen));
        }
        add_overview(document.blocks, features, samples);
        add_features(document.blocks, features);
    }
    add_levels(document.blocks, features);
    document.blocks.emplace_back(Details{
        {Section{"Structures of the first candidates", "", {}, {structures_of(features)}}}});
    return document;
}

} // namespace cospot
