#pragma once

#include "distil/distilled_sample.h"
#include "distil/volatility_order.h"

#include <optional>
#include <string_view>

namespace cospot {

/// Stands under every distillation.
inline constexpr std::string_view kAreaIsNoMass =
    "Area per cent is not mass per cent: detectors answer differently to different compounds. The "
    "scale holds for what is like an alkane; polar and aromatic compounds really boil higher than "
    "it says, by 5 to 20 °C (common practice, no source), and on a polar phase it fails.";

/// All that `distil` says; at least one of them.
struct DistilResult {
    std::optional<distillation::DistilledSample> sample; ///< of a chromatogram
    std::optional<distillation::VolatilityOrder> order;  ///< of a system of the library

    [[nodiscard]] bool needs_attention() const {
        return (sample && sample->before_per_cent + sample->behind_per_cent > 0.0) ||
               (order && order->phase == quantities::GasPhase::polar);
    }
};

} // namespace cospot
