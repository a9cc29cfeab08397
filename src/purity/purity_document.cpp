#include "purity/purity_document.h"

#include "document/caution.h"
#include "document/cells.h"
#include "purity/purity_picture.h"
#include "purity/purity_tables.h"
#include "purity/trend_document.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace cospot {

namespace {

using purity::JudgedFeature;
using purity::JudgedSample;
using purity::PurityResult;
using purity::RuleVerdict;
using purity::Verdict;

using Sentences = std::vector<std::string>;

// -- Verdicts ------------------------------------------------------------------------------------

bool has(const JudgedSample &sample, Verdict verdict) {
    return std::any_of(sample.verdicts.begin(), sample.verdicts.end(),
                       [&](const RuleVerdict &one) { return one.verdict == verdict; });
}

Cell verdict_cell(const JudgedSample &sample) {
    if (has(sample, Verdict::does_not_meet)) {
        return {"not in order", 2.0, Emphasis::alarm};
    }
    return has(sample, Verdict::cannot_be_told) || has(sample, Verdict::open)
               ? Cell{"open", 1.0, Emphasis::strong}
               : Cell{"in order", 0.0};
}

/// The names of the rules with that verdict, each once: "any other impurity (2 times); ...".
std::string rules_with(const JudgedSample &sample, Verdict verdict) {
    std::vector<std::pair<std::string, std::size_t>> counts;
    for (const RuleVerdict &one : sample.verdicts) {
        if (one.verdict != verdict) {
            continue;
        }
        const auto known = std::find_if(counts.begin(), counts.end(),
                                        [&](const auto &entry) { return entry.first == one.rule; });
        if (known == counts.end()) {
            counts.emplace_back(one.rule, 1);
        } else {
            ++known->second;
        }
    }
    std::string text;
    for (const auto &[rule, count] : counts) {
        text += (text.empty() ? "" : "; ") + rule +
                (count > 1 ? fmt::format(" ({} times)", count) : "");
    }
    return text;
}

/// "Not met: a; b. Cannot be told: c. Open until confirmed: d."
std::string open_rules(const JudgedSample &sample) {
    Sentences sentences;
    for (const auto &[verdict, words] : {std::pair(Verdict::does_not_meet, "Not met"),
                                         std::pair(Verdict::cannot_be_told, "Cannot be told"),
                                         std::pair(Verdict::open, "Open until confirmed")}) {
        if (const std::string rules = rules_with(sample, verdict); !rules.empty()) {
            sentences.push_back(fmt::format("{}: {}.", words, rules));
        }
    }
    return fmt::to_string(fmt::join(sentences, " "));
}

/// The same for a row of the table of samples: "a; b; cannot be told: c; until confirmed: d".
std::string open_rules_in_a_row(const JudgedSample &sample) {
    Sentences parts;
    for (const auto &[verdict, words] : {std::pair(Verdict::does_not_meet, ""),
                                         std::pair(Verdict::cannot_be_told, "cannot be told: "),
                                         std::pair(Verdict::open, "until confirmed: ")}) {
        if (const std::string rules = rules_with(sample, verdict); !rules.empty()) {
            parts.push_back(words + rules);
        }
    }
    return fmt::to_string(fmt::join(parts, "; "));
}

std::string verdict_of_one(const JudgedSample &sample) {
    const std::string open = open_rules(sample);
    return fmt::format(
        "{}, declared {}: {}. {}", sample.name, sample.declared, verdict_cell(sample).text,
        open.empty() ? counted(sample.verdicts.size(), "rule") + " met, as far as this run shows."
                     : open);
}

/// "Declared butylparaben: 1 of 6 samples in order, 4 not in order, 1 open."
std::string verdict_of_all(const PurityResult &result) {
    std::vector<std::pair<std::string, std::size_t>> counts{
        {"in order", 0}, {"not in order", 0}, {"open", 0}};
    for (const JudgedSample &sample : result.samples) {
        for (auto &[verdict, count] : counts) {
            count += verdict == verdict_cell(sample).text ? 1 : 0;
        }
    }
    std::string text;
    for (const auto &[verdict, count] : counts) {
        if (count > 0) {
            text += text.empty() ? fmt::format("{} of {} samples", count, result.samples.size())
                                 : fmt::format(", {}", count);
            text += ' ' + verdict;
        }
    }
    return fmt::format("Declared {}: {}.", result.declared, text);
}

const std::vector<std::string> kSigners{"Analyst", "Reviewer"};

constexpr std::size_t kMostInFull = 100; ///< samples; all are in the table before

std::string anchor_of(std::size_t position) {
    return fmt::format("sample-{}", position);
}

/// Probability of the declared compound and shares, which residual solvents have none of.
void add_amount_cells(const JudgedSample &sample, bool any_disregarded, Row &row) {
    const double probability =
        sample.main ? sample.features[*sample.main].declared_probability : 0.0;
    row.cells.push_back({!sample.main               ? "no peak"
                         : sample.main_is_reference ? "the reference"
                                                    : probability_text(probability),
                         probability});
    row.cells.push_back(number_cell(sample.impurities_per_cent, 2));
    if (any_disregarded) {
        row.cells.push_back(
            sample.disregarded_count > 0
                ? Cell{share_text(sample.disregarded_per_cent), sample.disregarded_per_cent}
                : Cell{});
    }
}

Table samples_table(const PurityResult &result) {
    Table table{.label = "All samples", .columns = {{"Sample"}, {"Verdict"}}, .is_sortable = true};
    const bool asks_solvents = result.samples.front().asks_solvents;
    const bool any_disregarded =
        std::any_of(result.samples.begin(), result.samples.end(),
                    [](const JudgedSample &sample) { return sample.disregarded_count > 0; });
    if (!asks_solvents) {
        table.columns.push_back({"Probability", true});
        table.columns.push_back({"Impurities %", true});
    }
    if (any_disregarded) {
        table.columns.push_back({"Disregarded %", true});
    }
    table.columns.push_back({"Not met, or open"});
    for (std::size_t i = 0; i < result.samples.size(); ++i) {
        const JudgedSample &sample = result.samples[i];
        Row row{{{sample.name, {}, Emphasis::none, anchor_of(i + 1)}, verdict_cell(sample)}};
        if (!asks_solvents) {
            add_amount_cells(sample, any_disregarded, row);
        }
        row.cells.push_back({open_rules_in_a_row(sample)});
        table.rows.push_back(std::move(row));
    }
    return table;
}

std::string picture_name(const JudgedSample &sample) {
    return is_chromatogram(sample) ? "Chromatogram" : "Lane of the plate";
}

// -- What holds for all samples ------------------------------------------------------------------

/// A sentence, and the samples that it holds for.
struct Said {
    std::string text;
    std::vector<const JudgedSample *> samples;
};

void say(std::vector<Said> &all, const std::string &text, const JudgedSample &sample) {
    auto known =
        std::find_if(all.begin(), all.end(), [&](const Said &one) { return one.text == text; });
    if (known == all.end()) {
        known = all.insert(all.end(), {text, {}});
    }
    if (known->samples.empty() || known->samples.back() != &sample) {
        known->samples.push_back(&sample);
    }
}

/// Each sentence once; after the names of the samples where it does not hold for all of them.
Sentences said_once(const std::vector<Said> &all, std::size_t samples) {
    Sentences sentences;
    for (const Said &one : all) {
        constexpr std::size_t named = 6; // the others find it in the reports in CSV and JSON
        std::string names;
        for (std::size_t i = 0; i < std::min(named, one.samples.size()); ++i) {
            names += (names.empty() ? "" : ", ") + one.samples[i]->name;
        }
        if (one.samples.size() > named) {
            names += fmt::format(" and {}", counted(one.samples.size() - named, "more sample"));
        }
        sentences.push_back(one.samples.size() == samples ? one.text : names + ": " + one.text);
    }
    return sentences;
}

List hidden_list(const PurityResult &result) {
    std::vector<Said> all;
    for (const JudgedSample &sample : result.samples) {
        for (const std::string &text : sample.hidden) {
            say(all, text, sample);
        }
    }
    return {"", said_once(all, result.samples.size())};
}

List notes_list(const PurityResult &result) {
    std::vector<Said> all;
    auto sample = result.samples.begin();
    for (const purity::JudgedFile &file : result.files) {
        for (std::size_t i = 0; i < file.count; ++i, ++sample) {
            for (const Sentences *notes : {&file.notes, &sample->notes}) {
                for (const std::string &text : *notes) {
                    say(all, text, *sample);
                }
            }
        }
    }
    return {"", said_once(all, result.samples.size())};
}

/// What must be known before the answer is read; of several files with their names.
Sentences lead_sentences(const PurityResult &result) {
    Sentences sentences;
    for (const purity::JudgedFile &file : result.files) {
        for (const std::string &text : file.lead) {
            sentences.push_back(result.files.size() == 1 ? text : file.name + ": " + text);
        }
    }
    return sentences;
}

// -- The whole -----------------------------------------------------------------------------------

std::vector<Block> one_sample(const JudgedSample &sample) {
    Section features{is_chromatogram(sample) ? "Peak by peak" : "Spot by spot", "", {}, {}, true};
    if (auto picture = purity_picture(sample)) {
        features.blocks.emplace_back(std::move(*picture));
    }
    features.blocks.emplace_back(features_table(sample, true));
    if (const std::string sums = sums_sentence(sample); !sums.empty()) {
        features.blocks.emplace_back(Paragraph{sums});
    }
    features.blocks.emplace_back(warnings_of(sample));
    return {Paragraph{verdict_of_one(sample), Paragraph::Role::verdict},
            Section{"Rule by rule", "", {}, {rules_table(sample, true)}}, std::move(features)};
}

/// What a sheet says of itself, since it may be signed and kept alone.
std::string sheet_sentence(const JudgedSample &sample, const std::string &limits) {
    const Feature &first = sample.features.front().feature;
    std::string text =
        fmt::format("{} of {}, declared {}.", sample.asks_solvents ? "Residual solvents" : "Purity",
                    sample.name, sample.declared);
    text += fmt::format(" On {}{}; read from {}.", sample.system,
                        first.date.empty() ? "" : ", run " + first.date, sample.file);
    return text + ' ' + limits;
}

/// One of several: the rules that are met in one sentence, the picture folded, so that many samples
/// print on few sheets; on a sheet of its own the picture comes first and signatures last. The sum
/// of its impurities stands in the summary, the ratio of the trend with the trend.
Section sample_section(const JudgedSample &sample, std::size_t position, purity::Ratio trend_ratio,
                       const std::string *limits_of_sheet) {
    const bool is_sheet = limits_of_sheet != nullptr;
    Section section{sample.name, anchor_of(position), verdict_cell(sample), {}, true, is_sheet};
    if (is_sheet) {
        section.blocks.emplace_back(Paragraph{sheet_sentence(sample, *limits_of_sheet)});
    }
    section.blocks.emplace_back(rules_table(sample, false));
    if (const std::string met = met_sentence(sample); !met.empty()) {
        section.blocks.emplace_back(Paragraph{met, Paragraph::Role::small});
    }
    section.blocks.emplace_back(features_table(sample, sample.ratio != trend_ratio));
    section.blocks.emplace_back(warnings_of(sample));
    if (auto picture = purity_picture(sample)) {
        if (is_sheet) {
            section.blocks.emplace(section.blocks.begin() + 1, std::move(*picture));
        } else {
            section.blocks.emplace_back(Details{{std::move(*picture)}, picture_name(sample)});
        }
    }
    if (is_sheet) {
        section.blocks.emplace_back(Paragraph{sums_sentence(sample)});
        section.blocks.emplace_back(
            Paragraph{std::string(kRetentionIsNoProof), Paragraph::Role::small});
        section.signers = kSigners;
    }
    return section;
}

std::vector<Block> several_samples(const PurityResult &result, bool has_sheets) {
    std::vector<Block> blocks{Paragraph{verdict_of_all(result), Paragraph::Role::verdict},
                              samples_table(result)};
    if (has_amounts(*result.trend)) {
        blocks.emplace_back(trend_section(*result.trend));
    }
    Section each{"Sample by sample", "", {}, {}};
    const std::size_t shown = std::min(kMostInFull, result.samples.size());
    for (std::size_t i = 0; i < shown; ++i) {
        (has_sheets ? blocks : each.blocks)
            .emplace_back(sample_section(result.samples[i], i + 1, result.trend->ratio,
                                         has_sheets ? &result.limits : nullptr));
    }
    if (shown < result.samples.size()) {
        each.blocks.emplace_back(Paragraph{fmt::format(
            "The first {} of {} samples in full; the reports in CSV and JSON have all of them.",
            shown, result.samples.size())});
    }
    if (!each.blocks.empty()) {
        blocks.emplace_back(std::move(each));
    }
    return blocks;
}

std::string title_of(const PurityResult &result) {
    const std::size_t count = result.samples.size();
    const std::string &first = result.samples.front().name;
    return fmt::format(
        "{} of {}, declared {}",
        result.samples.front().asks_solvents ? "Residual solvents" : "Purity",
        count == 1 ? first
                   : fmt::format("{} samples, {} to {}", count, first, result.samples.back().name),
        result.declared);
}

/// One row a feature.
DataTable data_of(const std::vector<JudgedSample> &samples) {
    DataTable data{{"sample", "declared", "feature", "role", "tR", "relative_retention",
                    "relative_retention_is", "area", "ppm", "per_cent", "reported_per_cent",
                    "response_factor", "identity", "probability", "named", "confirmed", "actions"}};
    for (const JudgedSample &sample : samples) {
        const std::string ratio = definition(sample.ratio);
        for (const JudgedFeature &judged : sample.features) {
            const bool is_reported = judged.reported.has_value();
            data.rows.push_back(
                {sample.name, sample.declared, judged.feature.name,
                 std::string(to_text(judged.role)), datum_of(judged.feature.retention_time_min),
                 datum_of(judged.relative_retention), ratio.empty() ? Datum() : Datum(ratio),
                 datum_of(judged.area), datum_of(judged.ppm), datum_of(judged.per_cent),
                 is_reported ? Datum(to_text(*judged.reported)) : Datum(),
                 is_reported ? Datum(judged.response_factor) : Datum(), judged.identity.name,
                 judged.identity.is_judged ? Datum(judged.identity.probability) : Datum(),
                 judged.identity.is_named, judged.identity.is_confirmed, actions_text(judged)});
        }
    }
    return data;
}

} // namespace

Document purity_document(const PurityResult &result, bool has_sheets) {
    Document document{
        .title = title_of(result),
        .lead = "Which peak or spot is the declared compound, what else was seen, and by which "
                "rule that is in order.",
        .blocks = result.samples.size() == 1 ? one_sample(result.samples.front())
                                             : several_samples(result, has_sheets),
        .cautions = {std::string(kRetentionIsNoProof)},
        .signers = kSigners,
        .data = data_of(result.samples)};
    const Sentences lead = lead_sentences(result);
    for (std::size_t i = 0; i < lead.size(); ++i) { // behind the verdict
        document.blocks.emplace(document.blocks.begin() + 1 + static_cast<std::ptrdiff_t>(i),
                                Paragraph{lead[i]});
    }
    document.blocks.emplace_back(Section{"What this does not show", "", {}, {hidden_list(result)}});
    if (List notes = notes_list(result); !notes.items.empty()) {
        document.blocks.emplace_back(Section{"How it was read", "", {}, {std::move(notes)}});
    }
    return document;
}

} // namespace cospot
