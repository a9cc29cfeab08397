#pragma once

#include "document/document.h"
#include "rename/rename_result.h"

namespace cospot {

/// A sentence on the new name, and old and new structure side by side where it was corrected.
[[nodiscard]] Document rename_document(const RenameResult &result);

} // namespace cospot
