#include "output/purity_text.h"

#include "document/probability_text.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

using purity::JudgedFeature;
using purity::JudgedSample;
using purity::Role;

std::string position_text(const Feature &feature) {
    if (feature.retention_time_min) {
        return fmt::format("{:.3f}", *feature.retention_time_min);
    }
    return feature.observations.empty()
               ? ""
               : shown(feature.observations.front().quantity, feature.observations.front().value);
}

std::string amount_text(const JudgedFeature &feature) {
    if (feature.role == Role::disregarded) {
        return "below";
    }
    return feature.reported ? to_text(*feature.reported) : "";
}

std::string identity_text(const JudgedFeature &judged) {
    if (judged.role == Role::blank) {
        return "in the blank too";
    }
    return judged.identity.is_judged
               ? fmt::format("{} {}", probability_text(judged.identity.probability),
                             judged.identity.name)
               : judged.identity.name;
}

std::string feature_line(const JudgedFeature &judged) {
    const std::string relative =
        judged.relative_retention ? fmt::format("{:.2f}", *judged.relative_retention) : "";
    const char mark = judged.role == Role::declared ? '*' : ' ';
    std::string line =
        fmt::format("  {} {} {:>8} {:>6} {:>7}  {}\n", mark, padded(judged.feature.name, 8),
                    position_text(judged.feature), relative, amount_text(judged),
                    fitted(printable(identity_text(judged)), 40));
    std::string actions;
    for (const std::string &action : judged.actions) {
        actions += (actions.empty() ? "" : "; ") + action;
    }
    if (!actions.empty() && judged.role != Role::blank) {
        line += wrapped(printable("to do: " + actions), 38);
    }
    if (judged.response_is_held) {
        line += wrapped(fmt::format("response factor {:g}", judged.response_factor), 38);
    }
    for (const std::string &warning : judged.identification.warnings) {
        line += wrapped("! " + printable(warning), 6);
    }
    return line;
}

/// "; RRT: t_R/t_R(declared), unadjusted"
std::string ratio_words(purity::Ratio ratio) {
    return ratio == purity::Ratio::none ? ""
                                        : fmt::format("; {}: {}", symbol(ratio), definition(ratio));
}

std::string features_text(const JudgedSample &sample) {
    const bool is_chromatogram = sample.features.front().feature.retention_time_min.has_value();
    std::string text =
        fmt::format("  {:<10} {:>8} {:>6} {:>7}  {}\n", is_chromatogram ? "peak" : "spot",
                    is_chromatogram ? "tR/min" : "Rf", symbol(sample.ratio), "area %", "identity");
    for (const JudgedFeature &feature : sample.features) {
        text += feature_line(feature);
    }
    if (sample.main) {
        text += wrapped("* the declared compound" + ratio_words(sample.ratio), 2);
    }
    if (sample.impurities_per_cent) {
        text += wrapped(
            fmt::format("all impurities together: {:.2f} %", *sample.impurities_per_cent), 2);
    }
    if (sample.disregarded_count > 0) {
        text += wrapped(fmt::format("{} at or below the reporting threshold, disregarded: {:.2f} % "
                                    "together",
                                    sample.disregarded_count, sample.disregarded_per_cent),
                        2);
    }
    return text;
}

std::string verdict_text(const purity::RuleVerdict &verdict) {
    std::string text = fmt::format("  {}  {}\n", padded(to_text(verdict.verdict), 13),
                                   fitted(printable(verdict.rule), 62));
    std::string detail = verdict.limit.empty() ? "" : "limit " + verdict.limit;
    if (!verdict.found.empty()) {
        detail += (detail.empty() ? "found " : ", found ") + verdict.found;
    }
    text += detail.empty() ? "" : wrapped(printable(detail), 17);
    return text + (verdict.reason.empty() ? "" : wrapped(printable(verdict.reason), 17));
}

constexpr std::size_t kPurityNameWidth = 32;
constexpr std::size_t kColumnWidth = 15;
constexpr std::size_t kColumns = 3;

std::string trend_block(const purity::Trend &trend, std::size_t first) {
    const std::size_t last = std::min(first + kColumns, trend.samples.size());
    std::string text = "  " + padded("", kPurityNameWidth);
    for (std::size_t i = first; i < last; ++i) {
        text += ' ' + fmt::format("{:>{}}", fitted(printable(trend.samples[i]), kColumnWidth - 1),
                                  kColumnWidth - 1);
    }
    text += '\n';
    for (const purity::TrendRow &row : trend.rows) {
        text += "  " + padded(row.name, kPurityNameWidth);
        for (std::size_t i = first; i < last; ++i) {
            text += fmt::format("{:>{}}",
                                row.per_cent[i] ? fmt::format("{:.2f}", *row.per_cent[i]) : "-",
                                kColumnWidth);
        }
        text += '\n';
    }
    return text + '\n';
}

} // namespace

std::string purity_text(const JudgedSample &sample, const Style &style) {
    std::string text =
        style.strong(printable(sample.name) + ", declared " + printable(sample.declared)) + '\n';
    text += features_text(sample) + '\n';
    for (const purity::RuleVerdict &verdict : sample.verdicts) {
        text += verdict_text(verdict);
    }
    text += "\n  What this does not show\n";
    for (const std::string &hidden : sample.hidden) {
        std::string block = wrapped(printable(hidden), 6);
        block[4] = '-';
        text += block;
    }
    for (const std::string &note : sample.notes) {
        text += wrapped(printable(note), 2);
    }
    return text;
}

std::string trend_text(const purity::Trend &trend, const Style &style) {
    std::string text = style.strong("Over the samples, per cent") + "\n";
    for (std::size_t first = 0; first < trend.samples.size(); first += kColumns) {
        text += trend_block(trend, first);
    }
    if (trend.ratio != purity::Ratio::none) {
        text += wrapped(fmt::format("unknowns are followed by {}: {}", symbol(trend.ratio),
                                    definition(trend.ratio)),
                        2);
    }
    return text;
}

} // namespace cospot
