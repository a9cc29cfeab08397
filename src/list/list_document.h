#pragma once

#include "document/document.h"
#include "list/listing.h"

namespace cospot {

/// How many there are, and a row for each.
[[nodiscard]] Document list_document(const Listing &listing);

} // namespace cospot
