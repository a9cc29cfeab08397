#pragma once

#include "library/database.h"
#include "readers/plate_table.h"

#include <optional>
#include <span>
#include <string>

namespace cospot {

/// Where all lanes of a plate are samples, but some are labelled with names of compounds that the
/// library holds: that they may be standards, and how to say so.
[[nodiscard]] std::optional<std::string> unmarked_standards_words(std::span<const PlateSpot> plate,
                                                                  library::Database &database);

} // namespace cospot
