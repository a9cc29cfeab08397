#pragma once

#include "images/image.h"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace cospot::images {

/// Makes an image smaller while its rows come, so that the large one need not be kept. A pixel of
/// the small image is the mean over its area, in which the large ones count by their share; the
/// sums are whole numbers, so the mean is exact and then rounded.
class RowReduction {
public:
    /// Sides of 1 to 32767; those of the result are not above those of the source.
    RowReduction(int source_width, int source_height, int width, int height);

    /// The next row from the top: 3 * source_width bytes.
    void add(const std::uint8_t *rgb);
    /// After the last row.
    [[nodiscard]] Image take();

private:
    void narrow(const std::uint8_t *rgb);
    void finish_row();

    std::size_t source_width_;
    std::size_t source_height_;
    Image image_;
    std::size_t rows_added_ = 0;
    std::size_t rows_done_ = 0;
    std::vector<std::uint32_t> row_; ///< the added row made narrower: sums of shares
    std::vector<std::uint64_t> sum_; ///< of the rows under the next row of the result
};

/// The image with its longer side at most `max_side` (1 or more), its shape kept; a copy where it
/// is small enough.
[[nodiscard]] Image reduced(const Image &image, int max_side);

} // namespace cospot::images
