#include "identification/drawn_features.h"

#include <fmt/format.h>

#include <optional>
#include <utility>

namespace cospot {

namespace {

std::optional<double> drawn_index(const Feature &feature) {
    for (const FeatureObservation &observation : feature.observations) {
        if (observation.quantity == Quantity::RI && !observation.extrapolated) {
            return observation.value;
        }
    }
    return std::nullopt;
}

} // namespace

DrawnSpot drawn_spot(const Feature &feature, std::size_t position, std::string title,
                     SpotKind kind) {
    const PlatePlace &place = feature.plate.value();
    return {fmt::to_string(position), place.lane, std::move(title), place.distance_mm,
            place.front_mm,           kind,       place.is_noted_rf};
}

DrawnSpot drawn_standard(const PlateStandard &standard, std::string letter) {
    return {std::move(letter),    standard.lane,     "standard: " + standard.label,
            standard.distance_mm, standard.front_mm, SpotKind::standard};
}

DrawnPeak drawn_peak(const Feature &feature, std::size_t position, std::string title,
                     PeakKind kind) {
    return {.key = fmt::to_string(position),
            .title = std::move(title),
            .retention_time_min = feature.retention_time_min.value(),
            .index = drawn_index(feature),
            .area = feature.area,
            .height = feature.shape.height,
            .start_min = feature.shape.start_min,
            .end_min = feature.shape.end_min,
            .width_half_min = feature.shape.width_half_min,
            .kind = kind};
}

} // namespace cospot
