#pragma once

#include "document/document.h"
#include "integration/photographed_plate.h"

namespace cospot {

/// The spots as a table, and the photo with what was found drawn over it.
[[nodiscard]] Document photo_document(const PhotographedPlate &plate,
                                      const PhotoSettings &settings);

} // namespace cospot
