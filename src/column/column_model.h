#pragma once

#include "column/column_result.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// Where the volume of a planned band comes from: "measured" (the compound left this column
/// before), "calibrated" (by other compounds on this column) or "assumed"; empty where there is no
/// volume.
[[nodiscard]] std::string band_basis(const ColumnResult &result, std::size_t compound);

/// A quantity of the band model.
struct BandQuantity {
    const char *quantity = "";
    const char *unit = ""; ///< empty: a ratio
    double value = 0.0;
    std::optional<double> low; ///< it lies between in 95 of 100 columns; none: it is one value
    std::optional<double> high;
    const char *origin = ""; ///< "assumed", "given" or "learned"
    std::string reason;
};

/// What the bands are computed with. Empty where the column's size is not known.
[[nodiscard]] std::vector<BandQuantity> band_model(const ColumnResult &result);

/// How far a quantity known by its logarithm's standard deviation reaches either way in 95 of 100.
[[nodiscard]] double factor_of(double spread);

} // namespace cospot
