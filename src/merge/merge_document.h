#pragma once

#include "document/document.h"
#include "document/json.h"
#include "library/merge.h"

namespace cospot {

/// What was taken over, and where the two libraries say different things.
[[nodiscard]] Document merge_document(const library::MergeSummary &summary);

/// The counts as one object, with all findings and remarks.
[[nodiscard]] Json merge_json(const library::MergeSummary &summary);

} // namespace cospot
