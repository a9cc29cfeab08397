#include "fractions/components.h"

#include "fractions/spot_pairs.h"

#include <algorithm>
#include <cstddef>

namespace cospot::fractions {

namespace {

constexpr std::size_t kRemembered = 3; // spots whose mean a band is expected at

/// A band that may go on.
struct OpenBand {
    std::size_t component = 0;
    int missed = 0; ///< plated fractions since its last spot

    [[nodiscard]] double expected_rf(const std::vector<Component> &components) const {
        const auto &spots = components[component].spots;
        const std::size_t count = std::min(spots.size(), kRemembered);
        double sum = 0.0;
        for (std::size_t i = spots.size() - count; i < spots.size(); ++i) {
            sum += spots[i].rf.value();
        }
        return sum / static_cast<double>(count);
    }
};

std::vector<double> expected_rfs(const std::vector<OpenBand> &open,
                                 const std::vector<Component> &components) {
    std::vector<double> values;
    values.reserve(open.size());
    for (const OpenBand &band : open) {
        values.push_back(band.expected_rf(components));
    }
    return values;
}

/// Takes the spots of one fraction into the bands; spots that fit none begin new ones.
void take_fraction(std::size_t index, const Fraction &fraction, double tolerance,
                   std::vector<OpenBand> &open, std::vector<Component> &components) {
    std::vector<double> spots;
    for (const Spot &spot : fraction.spots) {
        spots.push_back(spot.rf);
    }
    std::vector<bool> is_taken(spots.size());
    for (OpenBand &band : open) {
        ++band.missed;
    }
    const auto add = [&](std::size_t component, std::size_t spot) {
        components[component].spots.push_back(
            {index, fraction.spots[spot].rf, fraction.spots[spot].intensity});
    };
    for (const auto &[band, spot] : pair_spots(expected_rfs(open, components), spots, tolerance)) {
        open[band].missed = 0;
        is_taken[spot] = true;
        add(open[band].component, spot);
    }
    std::erase_if(open, [](const OpenBand &band) { return band.missed > kMostMissed; });
    for (std::size_t spot = 0; spot < spots.size(); ++spot) {
        if (!is_taken[spot]) {
            open.push_back({components.size(), 0});
            components.emplace_back();
            add(open.back().component, spot);
        }
    }
    std::stable_sort(open.begin(), open.end(), [&](const OpenBand &a, const OpenBand &b) {
        return a.expected_rf(components) > b.expected_rf(components);
    });
}

} // namespace

std::vector<Component> find_components(const std::vector<Fraction> &fractions, double tolerance) {
    std::vector<Component> components;
    std::vector<OpenBand> open;
    for (std::size_t i = 0; i < fractions.size(); ++i) {
        take_fraction(i, fractions[i], tolerance, open, components);
    }
    for (Component &component : components) {
        double sum = 0.0;
        for (const BandSpot &spot : component.spots) {
            sum += spot.rf.value();
        }
        component.rf = sum / static_cast<double>(component.spots.size());
    }
    name_in_order(components, fractions);
    return components;
}

} // namespace cospot::fractions
