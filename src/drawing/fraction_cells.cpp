#include "drawing/fraction_cells.h"

#include "drawing/axis_ticks.h"
#include "drawing/label_layout.h"

#include <algorithm>
#include <string>

namespace cospot {

namespace {

constexpr double kNumberGap = 9.0;

} // namespace

std::vector<FractionCell> fraction_cells(const std::vector<int> &numbers) {
    std::vector<FractionCell> cells;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        if (i > 0 && numbers[i] > numbers[i - 1] + 1) {
            cells.push_back({numbers[i - 1] + 1, numbers[i] - 1, std::nullopt});
        }
        cells.push_back({numbers[i], numbers[i], i});
    }
    return cells;
}

std::vector<std::size_t> numbered_cells(const std::vector<FractionCell> &cells, double width) {
    std::vector<std::size_t> chosen;
    std::vector<Span> taken;
    const auto add = [&](std::size_t cell) {
        const double middle = width * (static_cast<double>(cell) + 0.5);
        const double half = 0.5 * (label_width(std::to_string(cells[cell].first)) + kNumberGap);
        const Span span{middle - half, middle + half};
        if (std::none_of(taken.begin(), taken.end(), [&](const Span &other) {
                return span.low < other.high && other.low < span.high;
            })) {
            taken.push_back(span);
            chosen.push_back(cell);
        }
    };
    const auto widest = label_width(std::to_string(cells.back().last)) + kNumberGap;
    const int step = std::max(1, static_cast<int>(round_step(widest / width, 1.0)));
    add(0);
    add(cells.size() - 1);
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (cells[i].fraction && cells[i].first % step == 0) {
            add(i);
        }
    }
    std::sort(chosen.begin(), chosen.end());
    return chosen;
}

std::vector<std::size_t> stacked(const std::vector<Span> &spans) {
    std::vector<std::size_t> lines;
    for (std::size_t i = 0; i < spans.size(); ++i) {
        std::size_t line = 0;
        const auto is_taken = [&] {
            for (std::size_t j = 0; j < i; ++j) {
                if (lines[j] == line && spans[i].low < spans[j].high &&
                    spans[j].low < spans[i].high) {
                    return true;
                }
            }
            return false;
        };
        while (is_taken()) {
            ++line;
        }
        lines.push_back(line);
    }
    return lines;
}

} // namespace cospot
