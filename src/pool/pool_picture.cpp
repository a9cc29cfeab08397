#include "pool/pool_picture.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

namespace cospot {

namespace {

constexpr std::size_t kPoolWidth = 80;
constexpr std::size_t kLabelWidth = 13;

/// A column of the picture.
struct FractionCell {
    std::size_t fraction = 0; ///< index
    bool is_looked_at = true; ///< false: stands for all that nobody looked at behind it
};

std::vector<FractionCell> cells_of(const fractions::ColumnRun &run) {
    std::vector<FractionCell> cells;
    for (std::size_t i = 0; i < run.fractions.size(); ++i) {
        if (i > 0 && run.fractions[i].number > run.fractions[i - 1].number + 1) {
            cells.push_back({i - 1, false});
        }
        cells.push_back({i, true});
    }
    return cells;
}

/// Draws the cells of one block.
class FractionBlock {
public:
    FractionBlock(const PoolResult &result, std::vector<FractionCell> cells, std::size_t cell_width)
        : result_(&result), cells_(std::move(cells)), cell_width_(cell_width) {}

    [[nodiscard]] std::string text() const {
        std::string text = line("fraction", [&](FractionCell cell) {
            return cell.is_looked_at
                       ? fmt::format("{}", result_->run.fractions[cell.fraction].number)
                       : "?";
        });
        for (std::size_t i = 0; i < result_->run.components.size(); ++i) {
            if (reaches_here(i)) {
                text += component_line(i);
            }
        }
        return text + line(result_->run.is_trace ? "bands" : "spots", [&](FractionCell cell) {
                   const std::size_t count = result_->pooling.components_in[cell.fraction].size();
                   if (!cell.is_looked_at) {
                       return std::string("?");
                   }
                   return count == 0 ? std::string("-") : fmt::format("{}", count);
               });
    }

private:
    template <typename Content> std::string line(const std::string &label, Content content) const {
        std::string text = padded(label, kLabelWidth);
        for (const FractionCell cell : cells_) {
            const std::string mark = content(cell);
            const std::size_t width = display_width(mark);
            text += std::string(cell_width_ - std::min(cell_width_, width), ' ') + mark;
        }
        return without_end_blanks(text) + '\n';
    }

    [[nodiscard]] bool reaches_here(std::size_t component) const {
        const auto &spots = result_->run.components[component].spots;
        return std::any_of(cells_.begin(), cells_.end(), [&](FractionCell cell) {
            return cell.fraction >= spots.front().fraction &&
                   cell.fraction <= spots.back().fraction;
        });
    }

    [[nodiscard]] std::string component_line(std::size_t index) const {
        const fractions::Component &component = result_->run.components[index];
        const std::string label =
            component.rf ? fmt::format("{:<2} Rf {:.2f}", component.name, *component.rf)
                         : component.name;
        return line(label, [&](FractionCell cell) {
            const auto &here = result_->pooling.components_in[cell.fraction];
            if (!cell.is_looked_at) {
                const bool is_inside = cell.fraction >= component.spots.front().fraction &&
                                       cell.fraction < component.spots.back().fraction;
                return std::string(is_inside ? "?" : "");
            }
            if (std::find(here.begin(), here.end(), index) == here.end()) {
                return std::string();
            }
            const std::string_view mark = here.size() == 1 ? "█" : "▒";
            std::string filled;
            for (std::size_t i = 1; i < cell_width_; ++i) {
                filled += mark;
            }
            return filled;
        });
    }

    const PoolResult *result_;
    std::vector<FractionCell> cells_;
    std::size_t cell_width_;
};

} // namespace

std::string pool_picture(const PoolResult &result) {
    const std::vector<FractionCell> cells = cells_of(result.run);
    const std::size_t digits = fmt::format("{}", result.run.fractions.back().number).size();
    const std::size_t cell_width = std::max<std::size_t>(digits, 2) + 1;
    const std::size_t cells_a_block = (kPoolWidth - kLabelWidth) / cell_width;
    std::string text;
    for (std::size_t first = 0; first < cells.size(); first += cells_a_block) {
        const std::size_t last = std::min(cells.size(), first + cells_a_block);
        const auto begin = cells.begin();
        text += FractionBlock(result,
                              {begin + static_cast<std::ptrdiff_t>(first),
                               begin + static_cast<std::ptrdiff_t>(last)},
                              cell_width)
                    .text() +
                '\n';
    }
    return text +
           (result.run.is_trace ? "██ one band   ▒▒ several bands   - nothing   "
                                : "██ one spot seen   ▒▒ several spots   - no spot seen   ") +
           "? not looked at\n";
}

} // namespace cospot
