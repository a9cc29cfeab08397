#include "evidence/plate_front.h"

#include "library/compounds.h"
#include "library/measurements.h"
#include "shared/error.h"
#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace cospot {

namespace {

constexpr double kFromPlateToPlate = 0.03; // of R_F
constexpr double kLeastRf = 0.2;           // below, the front would be uncertain by more than 15 %

/// Mean R_F of each compound on a system.
std::map<library::CompoundId, double> held_rf(library::Database &database,
                                              library::SystemId system) {
    std::map<library::CompoundId, std::pair<double, double>> sums;
    for (const library::HeldValue &value :
         library::values_on_system(database, system, Quantity::Rf)) {
        sums[value.compound].first += value.value;
        sums[value.compound].second += 1.0;
    }
    std::map<library::CompoundId, double> means;
    for (const auto &[compound, sum] : sums) {
        means.emplace(compound, sum.first / sum.second);
    }
    return means;
}

std::optional<double> rf_of(const std::string &name, library::Database &database,
                            const std::map<library::CompoundId, double> &held) {
    const auto compounds = library::find_by_name(database, name);
    if (compounds.size() != 1) {
        return std::nullopt;
    }
    const auto found = held.find(compounds.front().id);
    return found == held.end() ? std::nullopt : std::optional(found->second);
}

/// No spot runs farther than the solvent.
void check_within(std::span<const PlateSpot> plate, const EstimatedFront &front,
                  const std::string &file) {
    constexpr double sure = 3.0;
    const auto farthest =
        std::max_element(plate.begin(), plate.end(), [](const PlateSpot &a, const PlateSpot &b) {
            return a.distance_mm < b.distance_mm;
        });
    if (farthest->distance_mm > front.distance_mm + sure * front.error_mm) {
        throw InputError(
            {file, farthest->line, "distance_mm"}, exact_text(farthest->distance_mm) + " mm",
            fmt::format("at most the distance of the front, {:.1f} mm by the standards "
                        "(give it as front_mm)",
                        front.distance_mm));
    }
}

} // namespace

EstimatedFront front_from_standards(std::span<const PlateSpot> plate, library::Database &database,
                                    const library::System &system, double reading_error_mm,
                                    const std::string &file) {
    const auto held = held_rf(database, system.id);
    EstimatedFront front;
    double products = 0.0;
    double squares = 0.0;
    for (const PlateSpot &spot : plate) {
        const auto rf = spot.role == RowRole::standard ? rf_of(spot.label, database, held)
                                                       : std::optional<double>();
        if (rf && *rf >= kLeastRf) {
            products += spot.distance_mm * *rf;
            squares += *rf * *rf;
            ++front.standards;
        }
    }
    if (front.standards == 0 || products == 0.0) {
        const PlateSpot &first = plate.front();
        throw InputError(
            {file, first.line, "front_mm"},
            first.plate.empty() ? "no front" : "no front of plate " + in_quotes(first.plate),
            fmt::format("front_mm in one of its rows, or a standard (role standard) that the "
                        "library holds on {} at an R_F of 0.2 or more",
                        in_quotes(system.name)));
    }
    front.distance_mm = products / squares;
    front.error_mm =
        std::hypot(reading_error_mm, front.distance_mm * kFromPlateToPlate) / std::sqrt(squares);
    check_within(plate, front, file);
    return front;
}

} // namespace cospot
