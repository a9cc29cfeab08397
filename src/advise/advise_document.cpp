#include "advise/advise_document.h"

#include "document/caution.h"
#include "document/cells.h"
#include "drawing/probability_bars.h"
#include "drawing/share_bar.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

constexpr const char *kOnBits =
    "The most bits for the effort come first. Effort is relative, a plate being 1 (--effort sets "
    "your own). Left: how many candidates of the 95 % set are expected to stay in it; 0.6 of one "
    "candidate means that it stays in 6 of 10 cases. Known: candidates of which the library knows "
    "what they would show. All of it is what the library expects, not a promise. A standard that "
    "ran on the plate or in the run already is not proposed again.";

constexpr const char *kLampsAndStains =
    "Lamps harm eyes and skin, stains and solvents are corrosive, toxic or flammable: work in the "
    "hood, by your laboratory's own rules.";

using Samples = std::span<const SampleAdvice>;

std::string advised_name(const FeatureAdvice &advice) {
    return advice.sample.empty() ? advice.feature : advice.sample + " / " + advice.feature;
}

/// "ninhydrin (stain)"
std::string measurement_name(const AdvisedMeasurement &one) {
    return one.name + " (" + one.kind + ")";
}

/// How many cases of ten have this probability.
std::string cases_words(double probability) {
    const long cases = std::lround(10.0 * probability);
    return cases == 0    ? "in hardly any case"
           : cases == 10 ? "nearly always"
                         : fmt::format("in {} of 10 cases", cases);
}

/// "1.3 of 2 stay"; "it stays in 6 of 10 cases" of the only candidate.
std::string left_words(const AdvisedMeasurement &one, const FeatureAdvice &advice) {
    if (advice.remaining == 0) {
        return "none to begin with";
    }
    return advice.remaining == 1
               ? "it stays " + cases_words(one.gain.remaining)
               : fmt::format("{:.1f} of {} stay", one.gain.remaining, advice.remaining);
}

/// The verdict's clause on the same.
std::string left_clause(const AdvisedMeasurement &one, const FeatureAdvice &advice) {
    if (advice.remaining == 0) {
        return "";
    }
    return advice.remaining == 1
               ? fmt::format("; the one candidate of the 95 % set stays in it {}",
                             cases_words(one.gain.remaining))
               : fmt::format("; of the {} candidates of the 95 % set {:.1f} are expected to stay",
                             advice.remaining, one.gain.remaining);
}

/// "2 of 3 candidates remain"
std::string remaining_words(const FeatureAdvice &advice) {
    return fmt::format("{} of {} remain{}", advice.remaining,
                       counted(advice.candidates.size(), "candidate"),
                       advice.remaining == 1 ? "s" : "");
}

/// What stands in the place of measurements where there are none.
std::string no_measurement_words(const FeatureAdvice &advice) {
    return advice.candidates.empty() ? "Nothing to compare with: no advice."
                                     : "No further measurement that the library knows of would "
                                       "tell more.";
}

/// `all_bits`: what a full bar stands for.
Row measurement_row(const AdvisedMeasurement &one, double all_bits) {
    const double bits = one.gain.bits;
    return {{{one.name},
             {one.kind},
             {.text = "",
              .value = bits,
              .svg = share_bar(all_bits > 0.0 ? bits / all_bits : 0.0,
                               fmt::format("{:.2f} of {:.2f} bits", bits, all_bits))},
             number_cell(bits, 2),
             {fmt::format("{:g}", one.effort), one.effort},
             number_cell(one.bits_per_effort(), 2),
             number_cell(one.gain.remaining, 1),
             count_cell(one.known)}};
}

Table measurements_table(std::string label, const char *bar) {
    return {.label = std::move(label),
            .columns = {{"Measurement"},
                        {"Kind"},
                        {bar},
                        {"Bits", true},
                        {"Effort", true},
                        {"Per effort", true},
                        {"Left", true},
                        {"Known", true}},
            .is_sortable = true};
}

Table feature_table(const FeatureAdvice &advice) {
    Table table =
        measurements_table("What to measure next for " + advice.feature, "Of what is open");
    table.kind = "measurements";
    for (const AdvisedMeasurement &one : advice.measurements) {
        table.rows.push_back(measurement_row(one, advice.open_bits));
    }
    return table;
}

/// What tells about all features of a sample.
Table together_table(const SampleAdvice &sample) {
    Table table = measurements_table("What tells about all features at once", "Beside the best");
    table.caption = "What tells about all features at once: bits, candidates left and candidates "
                    "known are sums over the features";
    double most_bits = 0.0;
    for (const AdvisedMeasurement &one : sample.together) {
        most_bits = std::max(most_bits, one.gain.bits);
    }
    for (const AdvisedMeasurement &one : sample.together) {
        table.rows.push_back(measurement_row(one, most_bits));
    }
    return table;
}

/// Probabilities of what is open, as a bar.
Figure open_bar(const FeatureAdvice &advice) {
    std::vector<ProbabilityShare> shares;
    for (const OpenCandidate &candidate : advice.candidates) {
        shares.push_back({candidate.name, candidate.probability});
    }
    return {.svg = probability_bar(shares, advice.other, advice.unlisted,
                                   "What " + advice.feature + " may be")};
}

std::string open_words(const FeatureAdvice &advice) {
    std::string names;
    for (std::size_t i = 0; i < advice.remaining; ++i) {
        const OpenCandidate &candidate = advice.candidates[i];
        names += fmt::format("{}{} {}", i == 0 ? ": " : ", ", candidate.name,
                             probability_text(candidate.probability));
    }
    return fmt::format("{:.2f} bits are open. {} in the 95 % set{}; unlisted {}.", advice.open_bits,
                       remaining_words(advice), names, probability_text(advice.unlisted));
}

std::string feature_anchor_of(std::size_t position) {
    return fmt::format("feature-{}", position);
}

Section advice_section(const FeatureAdvice &advice, std::string heading, std::size_t position) {
    Section section{std::move(heading), feature_anchor_of(position), {}, {}};
    if (!advice.candidates.empty()) {
        section.blocks.emplace_back(Paragraph{open_words(advice)});
        section.blocks.emplace_back(open_bar(advice));
    }
    if (advice.measurements.empty()) {
        section.blocks.emplace_back(Paragraph{no_measurement_words(advice)});
    } else {
        section.blocks.emplace_back(feature_table(advice));
    }
    return section;
}

/// `position` is that of the first feature among all.
Section sample_section(const SampleAdvice &sample, std::size_t position) {
    const FeatureAdvice &first = sample.features.front();
    if (sample.features.size() == 1) {
        return advice_section(first, advised_name(first), position);
    }
    Section section{first.sample.empty() ? "Sample" : first.sample, "", {}, {}};
    section.blocks.emplace_back(together_table(sample));
    for (const FeatureAdvice &feature : sample.features) {
        section.blocks.emplace_back(
            advice_section(feature, "Feature " + feature.feature, position));
        ++position;
    }
    return section;
}

Table advice_overview(Samples samples) {
    Table table{.label = "The best measurement for each feature",
                .columns = {{"Feature"},
                            {"Remain", true},
                            {"Bits open", true},
                            {"Most for its effort"},
                            {"Bits", true},
                            {"Candidates left"}},
                .is_sortable = true};
    for (const SampleAdvice &sample : samples) {
        for (const FeatureAdvice &advice : sample.features) {
            Row row{{{advised_name(advice),
                      {},
                      Emphasis::none,
                      feature_anchor_of(table.rows.size() + 1)}}};
            if (advice.candidates.empty()) {
                row.cells.insert(row.cells.end(), {{}, {}, {"nothing to compare with"}, {}, {}});
            } else {
                row.cells.insert(row.cells.end(),
                                 {count_cell(advice.remaining), number_cell(advice.open_bits, 2)});
                if (advice.measurements.empty()) {
                    row.cells.insert(row.cells.end(), {{"nothing known"}, {}, {}});
                } else {
                    const AdvisedMeasurement &best = advice.measurements.front();
                    row.cells.insert(row.cells.end(),
                                     {{measurement_name(best)},
                                      number_cell(best.gain.bits, 2),
                                      {left_words(best, advice), best.gain.remaining}});
                }
            }
            table.rows.push_back(std::move(row));
        }
    }
    return table;
}

std::size_t feature_count(Samples samples) {
    std::size_t count = 0;
    for (const SampleAdvice &sample : samples) {
        count += sample.features.size();
    }
    return count;
}

/// Of one feature the best measurement, of several how many can be told further; empty where the
/// section of the one feature says all.
std::string advice_verdict(Samples samples) {
    const std::size_t count = feature_count(samples);
    if (count == 1) {
        const FeatureAdvice &only = samples.front().features.front();
        if (only.measurements.empty()) {
            return {};
        }
        const AdvisedMeasurement &best = only.measurements.front();
        return fmt::format("Most for its effort: {}, expected to tell {:.2f} of {:.2f} bits{}.",
                           measurement_name(best), best.gain.bits, only.open_bits,
                           left_clause(best, only));
    }
    std::size_t advised = 0;
    for (const SampleAdvice &sample : samples) {
        advised += static_cast<std::size_t>(
            std::count_if(sample.features.begin(), sample.features.end(),
                          [](const auto &one) { return !one.measurements.empty(); }));
    }
    std::string verdict = fmt::format("A further measurement would tell more about {} of {}.",
                                      advised, counted(count, "feature"));
    if (samples.size() == 1 && !samples.front().together.empty()) {
        const AdvisedMeasurement &best = samples.front().together.front();
        verdict += fmt::format(" Most about all at once, for its effort: {}, {:.2f} bits.",
                               measurement_name(best), best.gain.bits);
    }
    return verdict;
}

void add_measurements(DataTable &data, const std::vector<AdvisedMeasurement> &measurements,
                      const std::string &sample, const Datum &feature) {
    for (const AdvisedMeasurement &one : measurements) {
        data.rows.push_back({sample, feature, one.name, one.kind,
                             static_cast<std::int64_t>(one.known), one.gain.bits,
                             one.gain.remaining, one.effort, one.bits_per_effort()});
    }
}

/// One row a measurement; those about all features of a sample last, without a feature.
DataTable advice_data(Samples samples) {
    DataTable data{{"sample", "feature", "measurement", "kind", "known", "bits", "leaves", "effort",
                    "bits_per_effort"}};
    for (const SampleAdvice &sample : samples) {
        for (const FeatureAdvice &advice : sample.features) {
            add_measurements(data, advice.measurements, advice.sample, advice.feature);
        }
        add_measurements(data, sample.together, sample.features.front().sample, {});
    }
    return data;
}

} // namespace

Document advise_document(Samples samples) {
    const std::size_t count = feature_count(samples);
    Document document{.title = "What to measure next",
                      .lead = counted(count, "feature") +
                              " whose identity is open, and what each further measurement is "
                              "expected to tell.",
                      .notes = {kOnBits},
                      .cautions = {kLampsAndStains, std::string(kRetentionIsNoProof)},
                      .data = advice_data(samples)};
    if (std::string verdict = advice_verdict(samples); !verdict.empty()) {
        document.blocks.emplace_back(Paragraph{std::move(verdict), Paragraph::Role::verdict});
    }
    if (count > 1) {
        document.blocks.emplace_back(Section{"At a glance", "", {}, {advice_overview(samples)}});
    }
    std::size_t position = 1;
    for (const SampleAdvice &sample : samples) {
        document.blocks.emplace_back(sample_section(sample, position));
        position += sample.features.size();
    }
    return document;
}

} // namespace cospot
