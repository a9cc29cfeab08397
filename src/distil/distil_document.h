#pragma once

#include "distil/distil_result.h"
#include "document/document.h"

namespace cospot {

/// A simulated distillation, an order by boiling point, or both. The table of a report has a row
/// for each peak; of an order alone, for each compound.
[[nodiscard]] Document distil_document(const DistilResult &result);

} // namespace cospot
