#pragma once

#include "document/document.h"
#include "resolve/answer.h"

namespace cospot {

/// The best composition, the window diagram, the run at the best composition, and what it rests on.
[[nodiscard]] Document resolve_document(const resolve::Answer &answer);

} // namespace cospot
