#pragma once

#include "evidence/input_features.h"
#include "readers/plate_table.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// The spots of a table of plates, or of a plate in a photo, as the settings say; `notes` gets how
/// they were read. Standards that the settings name are found under all names that the library has
/// for them. Throws InputError as the readers of both do.
[[nodiscard]] std::vector<PlateSpot> read_plate_spots(library::Database &database, std::istream &in,
                                                      const std::string &file,
                                                      const InputSettings &settings,
                                                      std::vector<std::string> &notes);

/// The features of the plates of a file, with R_F on the system that the settings name. A plate
/// with standards whose system the library does not hold stands for itself; one whose front nobody
/// marked is scaled by standards that the library holds. Throws InputError for a faulty file, a
/// system that no plate can be run on, and a front that nothing tells.
[[nodiscard]] FeatureSet features_of_plates(library::Database &database, std::istream &in,
                                            const std::string &file, const InputSettings &settings);

} // namespace cospot
