#include "drawing/fractions_text.h"

#include "drawing/fraction_cells.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>
#include <span>
#include <string_view>
#include <vector>

namespace cospot {

namespace {

constexpr std::size_t kRunWidth = 80;
constexpr std::size_t kRunLabelWidth = 13;

/// Writes the cells of one block.
class FractionBlock {
public:
    FractionBlock(const DrawnRun &run, const std::map<int, std::size_t> &seen,
                  std::span<const FractionCell> cells, std::size_t cell_width)
        : run_(&run), seen_(&seen), cells_(cells), cell_width_(cell_width) {}

    [[nodiscard]] std::string text() const {
        std::string text = line("fraction", [](const FractionCell &cell) {
            return cell.fraction ? std::to_string(cell.first) : "?";
        });
        for (const DrawnComponent &component : run_->components) {
            if (component.cells.front().fraction <= cells_.back().last &&
                component.cells.back().fraction >= cells_.front().first) {
                text += component_line(component);
            }
        }
        return text + line(run_->threshold ? "bands" : "spots", [&](const FractionCell &cell) {
                   if (!cell.fraction) {
                       return std::string("?");
                   }
                   const std::size_t count = count_in(cell);
                   return count == 0 ? std::string("-") : std::to_string(count);
               });
    }

private:
    template <typename Content> std::string line(std::string_view label, Content content) const {
        std::string text = padded(label, kRunLabelWidth);
        for (const FractionCell &cell : cells_) {
            const std::string mark = content(cell);
            const std::size_t width = display_width(mark);
            text += std::string(cell_width_ - std::min(cell_width_, width), ' ') + mark;
        }
        return without_end_blanks(text) + '\n';
    }

    [[nodiscard]] std::size_t count_in(const FractionCell &cell) const {
        const auto here = seen_->find(cell.first);
        return here == seen_->end() ? 0 : here->second;
    }

    [[nodiscard]] std::string component_line(const DrawnComponent &component) const {
        const auto &band = component.cells;
        return line(component.name, [&](const FractionCell &cell) {
            if (!cell.fraction) {
                const bool is_inside =
                    cell.first > band.front().fraction && cell.last < band.back().fraction;
                return std::string(is_inside ? "?" : "");
            }
            const bool is_seen = std::any_of(band.begin(), band.end(), [&](const auto &one) {
                return one.fraction == cell.first;
            });
            std::string filled;
            for (std::size_t i = 1; is_seen && i < cell_width_; ++i) {
                filled += count_in(cell) == 1 ? "█" : "▒";
            }
            return filled;
        });
    }

    const DrawnRun *run_;
    const std::map<int, std::size_t> *seen_; ///< components, by fraction
    std::span<const FractionCell> cells_;
    std::size_t cell_width_;
};

} // namespace

std::string fractions_text(const DrawnRun &run) {
    std::vector<int> numbers;
    for (const DrawnFraction &fraction : run.fractions) {
        numbers.push_back(fraction.number);
    }
    std::map<int, std::size_t> seen;
    for (const DrawnComponent &component : run.components) {
        for (const DrawnBandCell &cell : component.cells) {
            ++seen[cell.fraction];
        }
    }
    const std::vector<FractionCell> cells = fraction_cells(numbers);
    const std::size_t digits = std::to_string(numbers.back()).size();
    const std::size_t cell_width = std::max<std::size_t>(digits, 2) + 1;
    const std::size_t each = (kRunWidth - kRunLabelWidth) / cell_width;
    std::string text;
    for (std::size_t first = 0; first < cells.size(); first += each) {
        const auto block = std::span(cells).subspan(first, std::min(each, cells.size() - first));
        text += FractionBlock(run, seen, block, cell_width).text() + '\n';
    }
    return text +
           (run.threshold ? "██ one band   ▒▒ several bands   - nothing   "
                          : "██ one spot seen   ▒▒ several spots   - no spot seen   ") +
           "? not looked at\n";
}

} // namespace cospot
