#pragma once

#include <string_view>

namespace cospot {

/// Stands under every result that names compounds.
inline constexpr std::string_view kRetentionIsNoProof =
    "Retention alone is no proof of identity: confirm with a reference standard and an independent "
    "method.";

/// Stand under advice on liquid chromatography; your own laboratory's rules come first.
inline constexpr std::string_view kLiquidCaution =
    "Caution: change the composition at low flow and watch the pressure (water and methanol are "
    "most viscous near half and half). Solvents are flammable and toxic: vent and label the waste. "
    "The rules of your laboratory and of the column's maker come first.";

} // namespace cospot
