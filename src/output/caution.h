#pragma once

#include <array>
#include <string_view>

namespace cospot {

/// Stands under every result that names compounds.
inline constexpr std::string_view kRetentionIsNoProof =
    "Retention alone is no proof of identity: confirm with a reference standard and an independent "
    "method.";

/// Stands under every result that somebody takes to a preparative column (common practice, no
/// source).
inline constexpr std::array<std::string_view, 4> kColumnCautions{
    "Glass columns under pressure burst: shield, never above the maker's pressure, no scratched "
    "glass; goggles on.",
    "Dry silica harms the lungs: weigh and slurry it in the hood, wet the waste.",
    "Column and fractions give off flammable, toxic vapour: work in the hood, no ignition sources.",
    "UV lamps harm eyes and skin: look through the cabinet's window, or wear UV goggles and "
    "gloves. Local rules go first."};

} // namespace cospot
