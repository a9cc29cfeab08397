#pragma once

#include "column/column_result.h"

#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// The published table that a column is chosen by.
inline constexpr std::string_view kFlashTableSource =
    "W. C. Still, M. Kahn, A. Mitra, J. Org. Chem. 1978, 43, 2923, Table I";

/// "within table", "below table" or "beyond table".
[[nodiscard]] std::string_view to_text(fractions::TablePlace place);

/// A finding as a sentence, with what to do.
[[nodiscard]] std::string finding_text(const fractions::PlanFinding &finding,
                                       const ColumnResult &result);

/// What should become of the eluent, in a sentence; without a target, that it takes one.
[[nodiscard]] std::string change_text(const ColumnResult &result);

/// "hexane:ethyl acetate 82:18".
[[nodiscard]] std::string mixture_text(const EluentAdvice &advice, double strong_fraction);

/// R_F that come from the library, one sentence each.
[[nodiscard]] std::vector<std::string> library_rf_sentences(const ColumnResult &result);

/// What the stated intervals hold, what of it is assumed, what runs of the column showed, and what
/// one more run would teach, in sentences. Empty where the column's size is not known.
[[nodiscard]] std::vector<std::string> interval_sentences(const ColumnResult &result);

/// What the next run would teach, in a sentence; empty where nothing of it is known.
[[nodiscard]] std::string teaching_sentence(const ColumnResult &result);

/// What the plan rests on.
[[nodiscard]] std::vector<std::string> plan_assumptions(const ColumnResult &result);

} // namespace cospot
