#pragma once

#include <string_view>

namespace cospot::quantities {

/// How a stationary phase for liquid chromatography works.
enum class LiquidPhase { reversed, normal, unknown };

/// What the name of a phase means: "octadecylsilica (C18)" and "phenyl-hexyl" are reversed, "silica
/// gel", "alumina" and "diol" normal. Common practice, no source. Cyano and amino phases work both
/// ways, and are `unknown` like every name that says nothing.
[[nodiscard]] LiquidPhase liquid_phase_of(std::string_view name);

/// How polar a stationary phase for gas chromatography is.
enum class GasPhase { non_polar, polar, unknown };

/// "dimethylsilicone", "5 % phenyl methylsilicone" and "squalane" are non-polar (up to 5 % of
/// phenyl in it), "polyethylene glycol", cyano- and trifluoropropyl silicones and more phenyl
/// polar. Common practice, no source.
[[nodiscard]] GasPhase gas_phase_of(std::string_view name);

} // namespace cospot::quantities
