#pragma once

#include "column/column_result.h"
#include "drawing/rack_picture.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// The letter of a planned compound in the rack, in the order in which they leave: A, B, C ...;
/// beyond Z its number. Empty where it has no fractions.
[[nodiscard]] std::string rack_letter(const fractions::ColumnPlan &plan, std::size_t compound);

/// Fractions in words: "8–11", "up to 4" (begins before fraction 1), "discarded" (ends before it);
/// empty where they are not known.
[[nodiscard]] std::string fractions_words(const std::optional<int> &first,
                                          const std::optional<int> &last);

/// Fractions of the target that no other compound is expected in, by number.
[[nodiscard]] std::vector<int> fractions_of_target_alone(const fractions::ColumnPlan &plan);

/// The rack up to the last tube in which a compound is expected. None where fractions are not
/// known, where nothing is expected in one, and where there are too many tubes to draw.
[[nodiscard]] std::optional<DrawnRack> planned_rack(const ColumnResult &result);

} // namespace cospot
