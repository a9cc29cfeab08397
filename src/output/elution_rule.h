#pragma once

#include "quantities/stationary_phase.h"

#include <string_view>

namespace cospot {

/// What leaves a liquid chromatograph's column first, and why, in one sentence.
[[nodiscard]] inline std::string_view elution_rule(quantities::LiquidPhase phase) {
    switch (phase) {
    case quantities::LiquidPhase::reversed:
        return "Reversed phase: the more polar compound leaves first, because the mobile phase "
               "holds it and the column does not; more organic modifier makes all leave earlier.";
    case quantities::LiquidPhase::normal:
        return "Normal phase: the less polar compound leaves first, because the column holds what "
               "is polar; more of the polar solvent makes all leave earlier.";
    case quantities::LiquidPhase::unknown:
        break;
    }
    return "The name of this phase does not say whether it holds what is polar or what is not; "
           "the solvent that it holds best makes all leave earlier.";
}

} // namespace cospot
