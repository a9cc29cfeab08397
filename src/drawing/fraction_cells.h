#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace cospot {

/// A column of the picture of a run: one fraction, or neighbours that nobody looked at.
struct FractionCell {
    int first = 0;
    int last = 0;
    std::optional<std::size_t> fraction; ///< index among those looked at
};

/// A cell for each of the numbers (ascending), and one for each gap between them.
[[nodiscard]] std::vector<FractionCell> fraction_cells(const std::vector<int> &numbers);

/// The cells whose numbers have room below the picture, where each cell is `width` pixels wide: the
/// first and the last one, and multiples of a round step between them.
[[nodiscard]] std::vector<std::size_t> numbered_cells(const std::vector<FractionCell> &cells,
                                                      double width);

/// Lines on which spans (first x, last x) have room beside each other: the number of the line of
/// each span, 0 being the first.
struct Span {
    double low = 0.0;
    double high = 0.0;
};
[[nodiscard]] std::vector<std::size_t> stacked(const std::vector<Span> &spans);

} // namespace cospot
