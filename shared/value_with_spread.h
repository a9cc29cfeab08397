#pragma once

#include "shared/quantity.h"

#include <string>

namespace cospot {

/// The value as `shown` gives it, but a retention factor with so many decimals that its spread has
/// two digits that count.
[[nodiscard]] std::string shown_beside(Quantity quantity, double value, double spread);

/// "0.213 ± 0.021", both with the same decimals; the value alone where the spread is 0.
[[nodiscard]] std::string with_spread(Quantity quantity, double value, double spread);

} // namespace cospot
