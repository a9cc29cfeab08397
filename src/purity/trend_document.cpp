#include "purity/trend_document.h"

#include "drawing/trend_picture.h"
#include "purity/purity_tables.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

namespace cospot {

namespace {

/// "batch_1 0.21, batch_2 0.03 (below the reporting threshold), batch_3 not seen"
std::string series_words(const purity::Trend &trend, const purity::TrendRow &row) {
    std::string words;
    for (std::size_t i = 0; i < row.per_cent.size(); ++i) {
        words += fmt::format("{}{} {}{}", i == 0 ? "" : ", ", trend.samples[i],
                             row.per_cent[i] ? share_text(*row.per_cent[i]) : "not seen",
                             row.is_below[i] ? " (below the reporting threshold)" : "");
    }
    return words;
}

Figure chart_of(const purity::Trend &trend, const purity::TrendRow &row) {
    DrawnTrend drawn{.title = row.name + " over the samples, per cent",
                     .words = series_words(trend, row)};
    for (std::size_t i = 0; i < row.per_cent.size(); ++i) {
        drawn.points.push_back(
            {trend.samples[i], row.per_cent[i],
             row.limit && row.per_cent[i] && breaks(*row.per_cent[i], *row.limit)});
    }
    if (row.limit) {
        drawn.limit = row.limit->percent.value;
    }
    return {trend_picture(drawn),
            row.name + ", %" + (row.limit ? " (broken line: " + row.limit->words + ")" : "")};
}

/// What is said in full of; the JSON has all.
constexpr std::size_t kMostFollowed = 10;
constexpr std::size_t kMostSamplesAcross = 8; ///< beyond, the samples stand below each other
constexpr std::size_t kMostSamplesDrawn = 60;

std::size_t shown_of(const purity::Trend &trend) {
    return std::min(trend.rows.size(), kMostFollowed);
}

Cell share_cell(const purity::TrendRow &row, std::size_t sample) {
    const std::optional<double> &share = row.per_cent[sample];
    if (!share) {
        return {"-"};
    }
    if (row.is_below[sample]) {
        return {fmt::format("({})", share_text(*share)), share, Emphasis::faint};
    }
    const bool is_broken = row.limit && breaks(*share, *row.limit);
    return {share_text(*share), share, is_broken ? Emphasis::alarm : Emphasis::none};
}

bool any_below(const purity::Trend &trend) {
    return std::any_of(trend.rows.begin(), trend.rows.end(), [](const purity::TrendRow &row) {
        return std::find(row.is_below.begin(), row.is_below.end(), true) != row.is_below.end();
    });
}

void fill_with_samples_across(Table &table, const purity::Trend &trend) {
    table.columns = {{"Compound"}};
    for (const std::string &sample : trend.samples) {
        table.columns.push_back({sample, true});
    }
    for (std::size_t r = 0; r < shown_of(trend); ++r) {
        Row cells{{{trend.rows[r].name}}};
        for (std::size_t i = 0; i < trend.samples.size(); ++i) {
            cells.cells.push_back(share_cell(trend.rows[r], i));
        }
        table.rows.push_back(std::move(cells));
    }
}

void fill_with_samples_below(Table &table, const purity::Trend &trend) {
    table.columns = {{"Sample"}};
    table.is_sortable = true;
    for (std::size_t r = 0; r < shown_of(trend); ++r) {
        table.columns.push_back({trend.rows[r].name, true});
    }
    for (std::size_t i = 0; i < trend.samples.size(); ++i) {
        Row cells{{{trend.samples[i]}}};
        for (std::size_t r = 0; r < shown_of(trend); ++r) {
            cells.cells.push_back(share_cell(trend.rows[r], i));
        }
        table.rows.push_back(std::move(cells));
    }
}

Table trend_table(const purity::Trend &trend) {
    Table table;
    table.label = "Per cent by sample";
    table.caption = "Per cent";
    if (any_below(trend)) {
        table.caption += "; in brackets: at or below the reporting threshold";
    }
    if (trend.ratio != purity::Ratio::none) {
        table.caption += fmt::format("; unknowns are followed by {}: {}", symbol(trend.ratio),
                                     definition(trend.ratio));
    }
    if (trend.samples.size() <= kMostSamplesAcross) {
        fill_with_samples_across(table, trend);
    } else {
        fill_with_samples_below(table, trend);
    }
    return table;
}

std::string left_out_sentence(const purity::Trend &trend) {
    std::string text;
    if (const std::size_t more = trend.rows.size() - shown_of(trend); more > 0) {
        text = fmt::format("{} with smaller shares {} left out here; the JSON has all.",
                           counted(more, "more compound"), more == 1 ? "is" : "are");
    }
    if (trend.not_followed > 0) {
        text += fmt::format(
            "{}{} neither a name nor a relative retention: not followed.", text.empty() ? "" : " ",
            counted(trend.not_followed, "feature") + (trend.not_followed == 1 ? " has" : " have"));
    }
    return text;
}

} // namespace

Section trend_section(const purity::Trend &trend) {
    Section section{"Over the samples", "", {}, {trend_table(trend)}};
    if (const std::string left_out = left_out_sentence(trend); !left_out.empty()) {
        section.blocks.emplace_back(Paragraph{left_out, Paragraph::Role::small});
    }
    if (trend.samples.size() <= kMostSamplesDrawn) {
        Beside charts;
        for (std::size_t r = 0; r < shown_of(trend); ++r) {
            charts.blocks.emplace_back(chart_of(trend, trend.rows[r]));
        }
        section.blocks.emplace_back(std::move(charts));
    }
    return section;
}

} // namespace cospot
