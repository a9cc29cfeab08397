#pragma once

#include "document/document.h"
#include "show/holdings.h"

namespace cospot {

/// A section for the system and for each compound of the name: what it is, then its values.
[[nodiscard]] Document show_document(const Holdings &holdings);

} // namespace cospot
