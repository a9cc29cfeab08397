#pragma once

#include "fractions/components.h"
#include "fractions/plates.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace cospot::fractions {

/// A fraction on one plate with spots at the given R_F.
inline Lane lane(int fraction, const std::vector<double> &rfs, const std::string &plate = "") {
    Lane lane{fraction, plate, "", {}};
    for (const double rf : rfs) {
        lane.spots.push_back({rf, std::nullopt});
    }
    return lane;
}

/// A fraction with R_F and intensity of its spots.
inline Lane weighed_lane(int fraction, const std::vector<std::pair<double, double>> &spots) {
    Lane lane{fraction, "", "", {}};
    for (const auto &[rf, intensity] : spots) {
        lane.spots.push_back({rf, intensity});
    }
    return lane;
}

/// The run that these lanes show.
inline ColumnRun column(const std::vector<Lane> &lanes, double tolerance = 0.03) {
    ColumnRun run;
    run.fractions = read_together(lanes, tolerance).fractions;
    run.components = find_components(run.fractions, tolerance);
    return run;
}

/// Numbers of the fractions in which the component was seen.
inline std::vector<int> numbers_of(const ColumnRun &run, std::size_t component) {
    std::vector<int> numbers;
    for (const BandSpot &spot : run.components.at(component).spots) {
        numbers.push_back(run.fractions.at(spot.fraction).number);
    }
    return numbers;
}

} // namespace cospot::fractions
