#include "drawing/rack_picture.h"

#include "drawing/svg.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

constexpr std::size_t kTubesOfRow = 20;
constexpr std::size_t kTubesOfLine = 10; ///< of a terminal
constexpr std::size_t kCell = 3;         ///< columns of a terminal
constexpr double kTubePitch = 44.0;      // px
constexpr double kTubeWidth = 30.0;
constexpr double kTubeHeight = 46.0;
constexpr double kRowHeight = 74.0;
constexpr double kGapHeight = 26.0; ///< of rows that are left out
constexpr double kRackLeft = 8.0;
constexpr double kRackTop = 30.0;  ///< above it stands what was discarded
constexpr double kTubeBase = 15.0; ///< how far the round bottom reaches

/// Neighbouring tubes: a row of the rack, or rows in which nothing is expected.
struct RackRow {
    std::size_t first = 0; ///< positions, both included
    std::size_t last = 0;
    bool is_left_out = false;
};

std::vector<RackRow> rack_rows(const DrawnRack &rack, std::size_t tubes_of_row) {
    std::vector<RackRow> rows;
    for (std::size_t first = 0; first < rack.tubes.size(); first += tubes_of_row) {
        const std::size_t last = std::min(first + tubes_of_row, rack.tubes.size()) - 1;
        const bool is_left_out =
            std::all_of(rack.tubes.begin() + static_cast<std::ptrdiff_t>(first),
                        rack.tubes.begin() + static_cast<std::ptrdiff_t>(last) + 1,
                        [](const DrawnTube &tube) { return tube.letters.empty(); });
        if (is_left_out && !rows.empty() && rows.back().is_left_out) {
            rows.back().last = last;
        } else {
            rows.push_back({first, last, is_left_out});
        }
    }
    return rows;
}

std::string left_out_words(const DrawnRack &rack, const RackRow &row) {
    return fmt::format("tubes {} to {}: nothing expected", rack.tubes[row.first].number,
                       rack.tubes[row.last].number);
}

std::string discarded_words(const DrawnRack &rack) {
    return rack.discarded_ml > 0.0
               ? fmt::format("{:g} mL discarded, then tubes of {:.3g} mL", rack.discarded_ml,
                             rack.tube_ml)
               : fmt::format("tubes of {:.3g} mL, nothing discarded before tube 1", rack.tube_ml);
}

/// Letters that fit above a tube or into a cell.
std::string shown_letters(const DrawnTube &tube) {
    return tube.letters.size() <= kCell ? tube.letters : "mix";
}

std::string style_of(const DrawnTube &tube) {
    switch (tube.content) {
    case TubeContent::none:
        return "tube";
    case TubeContent::possible:
        return "tube possible";
    case TubeContent::one:
        return tube.holds_target ? "tube one wanted" : "tube one";
    case TubeContent::several:
        return "tube several";
    }
    return "";
}

/// A test tube that stands at (x, y), its top left corner.
std::string glass(double x, double y) {
    return fmt::format("<path d=\"M{0} {1}v{2}a{3} {4} 0 0 0 {5} 0v-{2}z\"/>", svg::number(x),
                       svg::number(y), svg::number(kTubeHeight - kTubeBase),
                       svg::number(kTubeWidth / 2), svg::number(kTubeBase),
                       svg::number(kTubeWidth));
}

std::string tube_svg(const DrawnTube &tube, double x, double y) {
    std::string svg = tube.key.empty() ? "<g class=\"" + style_of(tube) + "\">"
                                       : svg::begin_mark(tube.key, tube.words, style_of(tube));
    svg += glass(x, y);
    if (!tube.letters.empty()) {
        svg += svg::text(x + kTubeWidth / 2, y + kTubeHeight / 2 + 4, "middle", shown_letters(tube),
                         "label");
    }
    svg += svg::text(x + kTubeWidth / 2, y + kTubeHeight + 14, "middle",
                     std::to_string(tube.number), "tick");
    return svg.append(svg::kEndMark);
}

/// What was discarded, in a flask, and the size of the tubes.
std::string heading_svg(const DrawnRack &rack) {
    constexpr double flask = 26.0; // px, with a gap
    if (rack.discarded_ml <= 0.0) {
        return svg::text(kRackLeft, 14, "start", discarded_words(rack), "lane");
    }
    return "<g class=\"flask\"><path d=\"M14 2h6v6l7 12h-20l7-12z\"/></g>" +
           svg::text(kRackLeft + flask, 14, "start", discarded_words(rack), "lane");
}

std::string cell_text(const DrawnTube &tube) {
    const std::string text =
        tube.content == TubeContent::possible ? std::string("·") : shown_letters(tube);
    const std::size_t blanks = kCell - display_width(text);
    return std::string(blanks / 2, ' ') + text + std::string(blanks - blanks / 2, ' ');
}

} // namespace

std::string rack_picture(const DrawnRack &rack, const std::string &title) {
    const std::vector<RackRow> rows = rack_rows(rack, kTubesOfRow);
    double height = kRackTop;
    for (const RackRow &row : rows) {
        height += row.is_left_out ? kGapHeight : kRowHeight;
    }
    const std::size_t widest = std::min(kTubesOfRow, rack.tubes.size());
    constexpr double least_width = 360.0; // of the line above
    const double width =
        std::max(least_width, 2 * kRackLeft + static_cast<double>(widest) * kTubePitch);
    std::string svg = svg::begin(width, height, "rack", title, discarded_words(rack));
    svg += heading_svg(rack);
    double y = kRackTop;
    for (const RackRow &row : rows) {
        if (row.is_left_out) {
            svg += svg::text(kRackLeft, y + 12, "start", left_out_words(rack, row), "lane");
            y += kGapHeight;
            continue;
        }
        for (std::size_t i = row.first; i <= row.last; ++i) {
            svg += tube_svg(rack.tubes[i],
                            kRackLeft + static_cast<double>(i - row.first) * kTubePitch, y);
        }
        y += kRowHeight;
    }
    return svg.append(svg::kEnd);
}

std::string rack_text(const DrawnRack &rack) {
    std::string text = "  " + discarded_words(rack) + '\n';
    for (const RackRow &row : rack_rows(rack, kTubesOfLine)) {
        if (row.is_left_out) {
            text += "        " + left_out_words(rack, row) + '\n';
            continue;
        }
        text += fmt::format("  {:>5} |", rack.tubes[row.first].number);
        for (std::size_t i = row.first; i <= row.last; ++i) {
            text += cell_text(rack.tubes[i]) + '|';
        }
        text += fmt::format(" {}\n", rack.tubes[row.last].number);
    }
    return text;
}

} // namespace cospot
