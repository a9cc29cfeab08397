#pragma once

#include "readers/role_column.h"

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

inline constexpr double kMinFront_mm = 10.0;   ///< below, the distances are in cm
inline constexpr double kMaxFront_mm = 2000.0; ///< of a long paper chromatogram

/// One spot of a developed plate as it was read with a ruler.
struct PlateSpot {
    std::string lane;
    std::string label; ///< sample, or name of the standard's compound; of a co-spot the sample
    std::string spot;
    double distance_mm = 0.0; ///< from the start to the middle of the spot
    double front_mm = 0.0;    ///< from the start to the solvent front
    RowRole role = RowRole::sample;
    std::string over; ///< of a co-spot: name of the standard's compound, applied over the sample
    std::optional<double> area; ///< by densitometry, any unit
    std::size_t line = 0;       ///< in the file
};

/// Reads a plate (columns lane,label,spot,distance_mm,front_mm, optional role and area; role is
/// "sample", "standard" or "cospot", an empty or absent one means "sample"). The label of a co-spot
/// is "SAMPLE + STANDARD". Throws InputError for what a ruler cannot have read: a spot beyond the
/// front, a negative distance, a front at 0, a spot named twice.
/// Columns that nobody reads are named in `notes`.
[[nodiscard]] std::vector<PlateSpot> read_plate(std::istream &in, const std::string &file,
                                                std::vector<std::string> *notes = nullptr);

} // namespace cospot
