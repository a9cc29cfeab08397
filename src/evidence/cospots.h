#pragma once

#include "readers/feature.h"
#include "readers/plate_table.h"

#include <string>
#include <vector>

namespace cospot {

/// Spots of one lane closer than this run into each other (common practice, no source).
inline constexpr double kOneSpot_mm = 1.5;

/// What the co-spots of a plate show: its lanes with the role "cospot", and lanes that hold spots
/// of a sample and of a standard. Where the one spot of a co-spot lies more than three standard
/// uncertainties from where the standard ran alone, the standard's spot is missing; distances are
/// read to `reading_error_mm` (standard uncertainty). Throws InputError for a co-spot of a sample
/// that has no lane of its own.
[[nodiscard]] std::vector<CoSpot> cospots_of(const std::vector<PlateSpot> &spots,
                                             const std::string &file, double reading_error_mm);

/// By how much a co-spot changes the odds that the sample's spot is the standard's compound, as a
/// natural logarithm (the probabilities behind it are assumed, MODEL.md section 4).
[[nodiscard]] double log_ratio_of(const CoSpot &cospot);

/// "co-spot on lane 3: ..."
[[nodiscard]] std::string words_of(const CoSpot &cospot);

} // namespace cospot
