#pragma once

#include <cstddef>
#include <vector>

namespace cospot::plate_photo {

/// A quantity over the plate, on an even grid of square cells. Row 0 lies at the plate's lower
/// edge, column 0 at its left edge.
struct Field {
    int width = 0;
    int height = 0;
    double cells_per_mm = 1.0;
    std::vector<float> values; ///< width * height, row after row

    [[nodiscard]] float &at(int x, int y) { return values[index(x, y)]; }
    [[nodiscard]] float at(int x, int y) const { return values[index(x, y)]; }
    /// Place of a cell's middle, and the cell at a place, kept inside.
    [[nodiscard]] double mm_of(int cell) const { return (cell + 0.5) / cells_per_mm; }
    [[nodiscard]] int column_at(double x_mm) const;
    [[nodiscard]] int row_at(double y_mm) const;

private:
    [[nodiscard]] std::size_t index(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
               static_cast<std::size_t>(x);
    }
};

[[nodiscard]] Field empty_field(int width, int height, double cells_per_mm);

/// Linear between the middles of cells, the outermost cells going on beyond the edges.
[[nodiscard]] double value_at(const Field &field, double x_mm, double y_mm);

/// The mean over squares of `2 * radius + 1` cells, twice: nearly a Gaussian.
[[nodiscard]] Field smoothed(const Field &field, int radius);

/// Grey opening by a disc of about `diameter_mm` (serra1982, from memory): what is high and
/// narrower than the disc goes away, what the disc fits into stays as high as it is.
[[nodiscard]] Field opened(const Field &field, double diameter_mm);

/// Standard deviation of what most cells have, in squares of about `side_mm`, as the upper quartile
/// tells it: noise of light is skewed, and what lies above is looked for. At least that of the
/// whole field, and at most half as much again: more are things, and no noise.
[[nodiscard]] Field deviations_in(const Field &field, double side_mm);

/// Standard deviation of what most cells have, about their median.
[[nodiscard]] double deviation_of(const Field &field);

} // namespace cospot::plate_photo
