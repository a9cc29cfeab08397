#pragma once

#include "distil/recovery.h"
#include "distil/volatility_order.h"
#include "quantities/boiling_scale.h"
#include "quantities/retention_index.h"

#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// Stands under every distillation.
inline constexpr std::string_view kAreaIsNoMass =
    "Area per cent is not mass per cent: detectors answer differently to different compounds. The "
    "scale holds for what is like an alkane; polar and aromatic compounds really boil higher than "
    "it says, by 5 to 20 °C (common practice, no source), and on a polar phase it fails.";

[[nodiscard]] inline std::string_view to_text(quantities::LadderPosition position) {
    switch (position) {
    case quantities::LadderPosition::inside:
        return "inside";
    case quantities::LadderPosition::after_last:
        return "behind the ladder";
    case quantities::LadderPosition::before_first:
    case quantities::LadderPosition::before_hold_up:
        break;
    }
    return "before the ladder";
}

[[nodiscard]] inline std::string_view to_text(distillation::Recovered::Place place) {
    switch (place) {
    case distillation::Recovered::Place::inside:
        return "inside";
    case distillation::Recovered::Place::below_scale:
        return "below the scale";
    case distillation::Recovered::Place::above_scale:
        break;
    }
    return "above the scale";
}

[[nodiscard]] inline std::string_view to_text(distillation::Standing standing) {
    switch (standing) {
    case distillation::Standing::usual:
        return "usual";
    case distillation::Standing::early:
        return "early";
    case distillation::Standing::late:
        break;
    }
    return "late";
}

/// What the phase means for an order by boiling point.
[[nodiscard]] inline std::string_view phase_rule(quantities::GasPhase phase) {
    switch (phase) {
    case quantities::GasPhase::non_polar:
        return "Non-polar phase: compounds leave by boiling point, lowest first, because the phase "
               "holds all of them by much the same weak forces; polar ones come somewhat early, "
               "since they boil higher by holding on to one another.";
    case quantities::GasPhase::polar:
        return "Polar phase: the order of boiling points fails. The phase holds compounds that can "
               "form hydrogen bonds with it (alcohols, acids, phenols, amines) longer than their "
               "boiling points say, and lets hydrocarbons go earlier.";
    case quantities::GasPhase::unknown:
        break;
    }
    return "The name of this phase does not say how polar it is: the order of boiling points holds "
           "on non-polar phases only.";
}

/// Of more compounds in an order than these only those that stand out are listed.
inline constexpr std::size_t kMostOrdered = 40;

/// Gaps of the ladder, and members without boiling point.
[[nodiscard]] std::vector<std::string> ladder_notes(const quantities::BoilingScale &scale);

/// What the area before and behind the ladder means; nothing where there is none.
[[nodiscard]] std::vector<std::string> off_scale_words(double before_per_cent,
                                                       double behind_per_cent,
                                                       const quantities::BoilingScale &scale);

/// How areas are spread over temperatures.
[[nodiscard]] std::string_view spread_words(bool uses_widths);

/// How boiling points by index and from structure usually differ, in degrees C.
[[nodiscard]] std::string difference_words(double usual_difference, double spread);

} // namespace cospot
