#pragma once

#include "drawing/chromatogram_picture.h"
#include "drawing/plate_picture.h"
#include "readers/feature.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace cospot {

/// What fillings of spots and peaks mean.
inline constexpr std::string_view kFillings =
    "Filled: a compound of the library is the likeliest; hatched: none of them is; empty: nothing "
    "to compare with";

/// What the picture of a plate does not show.
inline constexpr std::string_view kPlateScale =
    "Distances from the start are to scale; the spacing of the lanes and the size of the spots "
    "were not recorded.";

/// A spot that was read on a plate; `position` is its number, from 1, `title` what it may be.
[[nodiscard]] DrawnSpot drawn_spot(const Feature &feature, std::size_t position, std::string title,
                                   SpotKind kind);

/// A spot of a standard, labelled by a letter.
[[nodiscard]] DrawnSpot drawn_standard(const PlateStandard &standard, std::string letter);

/// A peak of a chromatogram.
[[nodiscard]] DrawnPeak drawn_peak(const Feature &feature, std::size_t position, std::string title,
                                   PeakKind kind);

} // namespace cospot
