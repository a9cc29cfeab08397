#pragma once

#include "document/json.h"
#include "output/column_result.h"

#include <string>
#include <vector>

namespace cospot {

/// Where the volume of a planned band comes from: "measured" (the compound left this column
/// before), "calibrated" (by other compounds on this column) or "assumed"; empty where there is no
/// volume.
[[nodiscard]] std::string band_basis(const ColumnResult &result, std::size_t compound);

/// The quantities of the band model, each with its value, the ends between which it lies in 95 of
/// 100 columns (null: it is one value), where it comes from ("assumed", "given", "learned" or
/// "published") and why: objects of quantity, unit, value, low, high, origin, reason. Empty where
/// the column's size is not known.
[[nodiscard]] Json band_model_json(const ColumnResult &result);

/// What the stated intervals hold, what of it is assumed, what runs of the column showed, and what
/// one more run would teach, in sentences. Empty where the column's size is not known.
[[nodiscard]] std::vector<std::string> interval_sentences(const ColumnResult &result);

/// What the next run would teach, in a sentence; empty where nothing of it is known.
[[nodiscard]] std::string teaching_sentence(const ColumnResult &result);

} // namespace cospot
