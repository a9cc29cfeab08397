#pragma once

#include "document/document.h"
#include "document/json.h"
#include "learn/learn_summary.h"

namespace cospot {

/// What became of a call of `learn`.
enum class LearnOutcome { stored, dry_run, held_back };

/// How many values, compounds, systems and more were added, and how many were there already.
[[nodiscard]] Document learn_document(const LearnSummary &summary, LearnOutcome outcome);

/// The counts as one object, with `dry_run`, `stored`, and all remarks and doubts.
[[nodiscard]] Json learn_json(const LearnSummary &summary, LearnOutcome outcome);

} // namespace cospot
