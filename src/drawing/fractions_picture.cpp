#include "drawing/fractions_picture.h"

#include "drawing/axis_ticks.h"
#include "drawing/fraction_cells.h"
#include "drawing/label_layout.h"
#include "drawing/svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kMostCells = 160; ///< in one picture
constexpr double kRoom = 900.0;         ///< for the cells
constexpr double kWidestCell = 54.0;
constexpr double kNarrowestCell = 5.5;
constexpr double kFractionsLeft = 118.0; ///< of the cells; room for names
constexpr double kRightMargin = 14.0;
constexpr double kFractionsTop = 8.0;
constexpr double kCurveHeight = 130.0;
constexpr double kBandHeight = 34.0;
constexpr double kBarHeight = 26.0;
constexpr double kUnknownHeight = 0.5; ///< of a bar whose intensity nobody stated
constexpr double kStateHeight = 18.0;
constexpr double kNumberHeight = 20.0;
constexpr double kBracketHeight = 24.0;
constexpr double kLaneGap = 6.0;

using Cells = std::vector<FractionCell>;

/// One picture: some of the cells of a run.
class Picture {
public:
    Picture(const DrawnRun &run, Cells cells, double cell_width)
        : run_(&run), cells_(std::move(cells)), cell_width_(cell_width) {
        for (const DrawnComponent &component : run.components) {
            if (component.cells.front().fraction <= cells_.back().last &&
                component.cells.back().fraction >= cells_.front().first) {
                components_.push_back(&component);
            }
        }
        curve_bottom_ = kFractionsTop + (run.threshold ? kCurveHeight : 0.0);
        state_top_ = curve_bottom_ + kBandHeight * static_cast<double>(components_.size()) + 8.0;
    }

    [[nodiscard]] std::string svg(const std::string &title) {
        std::string body = columns(); // below the lines, as it may light up
        body += (run_->threshold ? curve() : "") + bands() + numbers();
        double y = state_top_ + kStateHeight + kNumberHeight + kLaneGap;
        body += brackets(run_->combine, "combine", "bracket", y);
        body += brackets(run_->keep_apart, "keep apart", "bracket mixed", y);
        const double right = kFractionsLeft + cell_width_ * static_cast<double>(cells_.size());
        return svg::begin(std::max(right, furthest_) + kRightMargin, y + 2.0, "fractions", title,
                          words()) +
               body + std::string(svg::kEnd);
    }

private:
    [[nodiscard]] double x_of(std::size_t cell) const {
        return kFractionsLeft + cell_width_ * static_cast<double>(cell);
    }

    [[nodiscard]] double middle_of(std::size_t cell) const { return x_of(cell) + cell_width_ / 2; }

    /// The cell of a fraction; the last one before it where it has none.
    [[nodiscard]] std::size_t cell_of(int fraction) const {
        const auto after =
            std::upper_bound(cells_.begin(), cells_.end(), fraction,
                             [](int number, const FractionCell &c) { return number < c.first; });
        return static_cast<std::size_t>(std::max<std::ptrdiff_t>(0, after - cells_.begin() - 1));
    }

    [[nodiscard]] std::string words() const {
        return fmt::format("fractions {} to {} from left to right; the tables say the same",
                           cells_.front().first, cells_.back().last);
    }

    [[nodiscard]] double baseline_of(std::size_t component) const {
        return curve_bottom_ + kBandHeight * static_cast<double>(component + 1);
    }

    /// The signal over the fractions, broken where nobody looked.
    [[nodiscard]] std::string curve() const {
        double low = 0.0;
        double high = run_->threshold.value();
        for (const DrawnFraction &fraction : run_->fractions) { // one scale for all pictures
            low = std::min(low, fraction.signal.value_or(0.0));
            high = std::max(high, fraction.signal.value_or(0.0));
        }
        high = high > low ? high : low + 1.0;
        const double bottom = curve_bottom_ - 8.0;
        const auto y = [&](double signal) {
            return bottom - (bottom - kFractionsTop - 6.0) * (signal - low) / (high - low);
        };
        const double right = x_of(cells_.size());
        std::string svg;
        const double step = round_step(high - low, 4);
        for (const double tick : axis_ticks(low, high, step)) {
            svg += svg::line(kFractionsLeft, y(tick), right, y(tick), "grid");
            svg += svg::text(kFractionsLeft - 6, y(tick) + 4, "end", tick_text(tick, step), "tick");
        }
        svg += svg::text(0, kFractionsTop + 10, "start", "signal", "lane");
        svg += svg::line(kFractionsLeft, y(*run_->threshold), right, y(*run_->threshold), "front");
        std::string points;
        const auto end_line = [&] {
            svg += points.empty() ? "" : "<polyline class=\"signal\" points=\"" + points + "\"/>";
            points.clear();
        };
        for (std::size_t i = 0; i < cells_.size(); ++i) {
            if (!cells_[i].fraction || !run_->fractions[*cells_[i].fraction].signal) {
                end_line();
                continue;
            }
            points += fmt::format("{}{},{}", points.empty() ? "" : " ", svg::number(middle_of(i)),
                                  svg::number(y(*run_->fractions[*cells_[i].fraction].signal)));
        }
        end_line();
        return svg;
    }

    /// Names and baselines of the components, and dashes where nobody looked within a band.
    [[nodiscard]] std::string bands() const {
        std::string svg;
        for (std::size_t i = 0; i < components_.size(); ++i) {
            const DrawnComponent &component = *components_[i];
            const double base = baseline_of(i);
            svg += svg::text(0, base - (component.is_wanted ? 19 : 6), "start", component.name);
            if (component.is_wanted) {
                svg += svg::text(0, base - 3, "start", "target", "lane");
            }
            svg += svg::line(kFractionsLeft, base, x_of(cells_.size()), base, "grid");
            for (std::size_t cell = 0; cell < cells_.size(); ++cell) {
                const FractionCell &here = cells_[cell];
                if (!here.fraction && here.first > component.cells.front().fraction &&
                    here.last < component.cells.back().fraction) {
                    svg += dash(cell, base - kBarHeight / 2);
                }
            }
        }
        return svg;
    }

    [[nodiscard]] std::string dash(std::size_t cell, double y) const {
        const double half = std::min(5.0, 0.35 * cell_width_);
        return svg::line(middle_of(cell) - half, y, middle_of(cell) + half, y, "dash");
    }

    /// What is drawn of one fraction: a bar a component, and the cell that sums them up.
    [[nodiscard]] std::string columns() const {
        std::string svg;
        const double inset = cell_width_ > 12.0 ? 1.5 : 0.5;
        const double width = cell_width_ - 2 * inset;
        for (std::size_t cell = 0; cell < cells_.size(); ++cell) {
            if (!cells_[cell].fraction) {
                svg += dash(cell, state_top_ + kStateHeight / 2);
                continue;
            }
            const DrawnFraction &fraction = run_->fractions[*cells_[cell].fraction];
            const char *style = fraction.state == DrawnState::one     ? "fraction one"
                                : fraction.state == DrawnState::mixed ? "fraction mixed"
                                                                      : "fraction none";
            svg += svg::begin_mark(fraction.key, fraction.title, style);
            svg += svg::rectangle(x_of(cell), kFractionsTop, cell_width_,
                                  state_top_ + kStateHeight - kFractionsTop, "reach");
            svg += bars(fraction.number, x_of(cell) + inset, width);
            svg += svg::rectangle(x_of(cell) + inset, state_top_, width, kStateHeight, "state");
            svg.append(svg::kEndMark);
        }
        return svg;
    }

    [[nodiscard]] std::string bars(int number, double x, double width) const {
        constexpr double least = 1.5;
        std::string svg;
        for (std::size_t i = 0; i < components_.size(); ++i) {
            const auto &cells = components_[i]->cells;
            const auto here = std::find_if(cells.begin(), cells.end(), [&](const auto &other) {
                return other.fraction == number;
            });
            if (here != cells.end()) {
                const double height =
                    std::max(least, kBarHeight * here->height.value_or(kUnknownHeight));
                svg += svg::rectangle(x, baseline_of(i) - height, width, height,
                                      here->height ? "amount" : "amount unknown");
            }
        }
        return svg;
    }

    [[nodiscard]] std::string numbers() const {
        const double y = state_top_ + kStateHeight + 15.0;
        std::string svg = svg::text(0, y, "start", "fraction", "lane");
        for (const std::size_t cell : numbered_cells(cells_, cell_width_)) {
            svg +=
                svg::text(middle_of(cell), y, "middle", std::to_string(cells_[cell].first), "tick");
        }
        return svg;
    }

    /// A lane of brackets from `y` on, which is moved below it.
    std::string brackets(const std::vector<DrawnBracket> &all, const char *lane, const char *style,
                         double &y) {
        constexpr double gap = 4.0;
        std::vector<const DrawnBracket *> here;
        std::vector<Span> lines; // of the brackets
        std::vector<Span> spans; // of bracket and label
        for (const DrawnBracket &bracket : all) {
            if (bracket.last < cells_.front().first || bracket.first > cells_.back().last) {
                continue;
            }
            const Span line{x_of(cell_of(bracket.first)) + 1, x_of(cell_of(bracket.last) + 1) - 1};
            const double half = 0.5 * label_width(bracket.label);
            const double middle = std::max(kFractionsLeft + half, (line.low + line.high) / 2);
            here.push_back(&bracket);
            lines.push_back(line);
            spans.push_back({std::min(line.low, middle - half), // label and line may overhang
                             std::max(line.high, middle + half) + gap});
        }
        if (here.empty()) {
            return {};
        }
        std::string svg = svg::text(0, y + 16, "start", lane, "lane");
        const std::vector<std::size_t> levels = stacked(spans);
        for (std::size_t i = 0; i < here.size(); ++i) {
            const double top = y + kBracketHeight * static_cast<double>(levels[i]);
            const double half = 0.5 * label_width(here[i]->label);
            const double middle =
                std::max(kFractionsLeft + half, (lines[i].low + lines[i].high) / 2);
            svg += fmt::format("<path class=\"{}\" d=\"M{} {}v5H{}v-5\"/>", style,
                               svg::number(lines[i].low), svg::number(top),
                               svg::number(lines[i].high));
            svg += svg::text(middle, top + 17, "middle", here[i]->label, "label");
            furthest_ = std::max(furthest_, spans[i].high);
        }
        y += kBracketHeight *
                 static_cast<double>(*std::max_element(levels.begin(), levels.end()) + 1) +
             kLaneGap;
        return svg;
    }

    const DrawnRun *run_;
    Cells cells_;
    double cell_width_;
    std::vector<const DrawnComponent *> components_; ///< those that reach here
    double curve_bottom_ = 0.0;
    double state_top_ = 0.0;
    double furthest_ = 0.0; ///< that a label reaches
};

} // namespace

std::vector<std::string> fractions_pictures(const DrawnRun &run, const std::string &title) {
    std::vector<int> numbers;
    for (const DrawnFraction &fraction : run.fractions) {
        numbers.push_back(fraction.number);
    }
    const Cells cells = fraction_cells(numbers);
    const std::size_t pictures = (cells.size() + kMostCells - 1) / kMostCells;
    const std::size_t each = (cells.size() + pictures - 1) / pictures;
    const double width = std::clamp(kRoom / static_cast<double>(each), kNarrowestCell, kWidestCell);
    std::vector<std::string> drawn;
    for (std::size_t first = 0; first < cells.size(); first += each) {
        const auto begin = cells.begin() + static_cast<std::ptrdiff_t>(first);
        const auto end =
            cells.begin() + static_cast<std::ptrdiff_t>(std::min(cells.size(), first + each));
        drawn.push_back(Picture(run, {begin, end}, width).svg(title));
    }
    return drawn;
}

} // namespace cospot
