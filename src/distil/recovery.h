#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace cospot::distillation {

/// An area that boils off between two temperatures.
struct BoilingArea {
    double from_celsius = 0.0;
    double to_celsius = 0.0; ///< at least `from_celsius`
    double area = 0.0;       ///< any unit
};

/// What surrounds the areas whose boiling point is known.
struct UnplacedArea {
    double before = 0.0; ///< boils lower than the scale, in the unit of the areas
    double behind = 0.0; ///< boils higher
};

/// At which temperature so much of the area is recovered.
struct Recovered {
    enum class Place { inside, below_scale, above_scale };

    double per_cent = 0.0; ///< of all area, that off the scale included
    Place place = Place::inside;
    std::optional<double> celsius; ///< only inside
};

[[nodiscard]] inline std::string_view to_text(Recovered::Place place) {
    switch (place) {
    case Recovered::Place::inside:
        return "inside";
    case Recovered::Place::below_scale:
        return "below the scale";
    case Recovered::Place::above_scale:
        break;
    }
    return "above the scale";
}

/// The percentages that a distillation is stated at: 0.5, every five to 95, 99.5.
[[nodiscard]] const std::vector<double> &stated_percentages();

/// The temperatures at which the stated percentages are recovered, each area spread evenly from
/// where it begins to where it ends. Where nothing boils between two areas, the lower end counts.
/// Needs an area above 0 on the scale.
[[nodiscard]] std::vector<Recovered> recovery_table(const std::vector<BoilingArea> &areas,
                                                    const UnplacedArea &unplaced);

/// Areas of which only the temperature of the apex is known, in ascending order of it: half of each
/// boils off on the way from the neighbour below, half on the way to the one above; what is beyond
/// the outermost apexes counts at these. This is the straight line through the cumulative area at
/// each apex.
[[nodiscard]] std::vector<BoilingArea>
spread_between_apexes(const std::vector<BoilingArea> &apexes);

} // namespace cospot::distillation
