#pragma once

#include "shared/quantity.h"

#include <fmt/format.h>

#include <string>

namespace cospot {

/// A retention factor with the digits that it deserves, also far outside a good run.
[[nodiscard]] inline std::string k_text(double k) {
    return k < 0.1 || k >= 1000.0 ? fmt::format("{:.2g}", k) : shown(Quantity::k, k);
}

} // namespace cospot
