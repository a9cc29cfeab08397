#include "purity/trend_document.h"

#include "drawing/trend_picture.h"

#include <fmt/format.h>

#include <string>
#include <utility>

namespace cospot {

namespace {

/// "batch_1 0.21, batch_2 not seen"
std::string series_words(const purity::Trend &trend, const purity::TrendRow &row) {
    std::string words;
    for (std::size_t i = 0; i < row.per_cent.size(); ++i) {
        words +=
            fmt::format("{}{} {}", i == 0 ? "" : ", ", trend.samples[i],
                        row.per_cent[i] ? fmt::format("{:.2f}", *row.per_cent[i]) : "not seen");
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

Table trend_table(const purity::Trend &trend) {
    Table table{.label = "Per cent by sample", .columns = {{"Compound"}}};
    table.caption = "Per cent";
    if (trend.ratio != purity::Ratio::none) {
        table.caption += fmt::format("; unknowns are followed by {}: {}", symbol(trend.ratio),
                                     definition(trend.ratio));
    }
    for (const std::string &sample : trend.samples) {
        table.columns.push_back({sample, true});
    }
    for (const purity::TrendRow &row : trend.rows) {
        Row cells{{{row.name}}};
        for (const auto &share : row.per_cent) {
            const bool is_broken = share && row.limit && breaks(*share, *row.limit);
            cells.cells.push_back(share ? Cell{fmt::format("{:.2f}", *share), share,
                                               is_broken ? Emphasis::alarm : Emphasis::none}
                                        : Cell{"-"});
        }
        table.rows.push_back(std::move(cells));
    }
    return table;
}

} // namespace

Section trend_section(const purity::Trend &trend) {
    Beside charts;
    for (const purity::TrendRow &row : trend.rows) {
        charts.blocks.emplace_back(chart_of(trend, row));
    }
    return {"Over the samples", "", {}, {trend_table(trend), std::move(charts)}};
}

} // namespace cospot
