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
    "Glass columns under pressure burst: shield, goggles, never above their limit.",
    "Dry silica harms the lungs: weigh and slurry it in the hood, wet the waste.",
    "Solvent vapour is flammable and toxic: work in the hood, no ignition sources.",
    "UV lamps harm eyes and skin: UV goggles, gloves. Local rules go first."};

/// Stands under results of gas chromatography at high oven temperatures.
inline constexpr std::string_view kGasCaution =
    "Caution: hydrogen carrier that leaks gathers in the hot oven and can explode: test the "
    "joints, close the gas before a column comes off, let injector and oven cool before touching "
    "them. The rules of your laboratory come first.";

/// Stands under advice on liquid chromatography; your own laboratory's rules come first.
inline constexpr std::string_view kLiquidCaution =
    "Caution: change the composition at low flow and watch the pressure (water and methanol are "
    "most viscous near half and half). Solvents are flammable and toxic: vent and label the waste. "
    "The rules of your laboratory and of the column's maker come first.";

} // namespace cospot
