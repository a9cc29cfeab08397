#pragma once

#include "document/document.h"
#include "show/holdings.h"

namespace cospot {

/// A section for the system, for the compound and for the packed column of the name: what it is,
/// then its values or bands.
[[nodiscard]] Document show_document(const Holdings &holdings);

} // namespace cospot
