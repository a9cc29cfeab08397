#pragma once

#include "prediction/curve_model.h"

namespace cospot::prediction {

/// What parameters are to be good for.
enum class SearchGoal {
    unseen_compounds, ///< small squared errors of the values of compounds that are left out
    own_curves,       ///< curves through a compound's own values: a large marginal likelihood
};

/// One parameter after the other is doubled or halved, later changed by a factor of 1.4, as long as
/// that helps. The goals disagree: the likelihood is all about how smooth each curve is, and the
/// parameters that it likes predict unseen compounds worse (R_F 0.126 against 0.121, log10 k 0.66
/// against 0.55 root mean square; see `tools/evaluate-prediction`). Of many compounds 120, evenly
/// spread over the table, take part: some 40 fits of 0.02 to 0.04 s each with ten or more mixtures.
[[nodiscard]] CurveParameters search_parameters(const RetentionTable &table,
                                                const CompoundGrams &grams, SearchGoal goal);

} // namespace cospot::prediction
