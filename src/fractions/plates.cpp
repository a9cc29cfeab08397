#include "fractions/plates.h"

#include "fractions/spot_pairs.h"
#include "quantities/plate.h"
#include "shared/robust.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

namespace cospot::fractions {

namespace {

void sort_by_rf(std::vector<Spot> &spots) {
    std::stable_sort(spots.begin(), spots.end(),
                     [](const Spot &a, const Spot &b) { return a.rf > b.rf; });
}

std::vector<double> rf_values(const std::vector<Spot> &spots) {
    std::vector<double> values;
    values.reserve(spots.size());
    for (const Spot &spot : spots) {
        values.push_back(spot.rf);
    }
    return values;
}

bool can_move(const Spot &spot) {
    return spot.rf > 0.0 && spot.rf < 1.0;
}

/// The lanes of one plate.
struct Plate {
    std::string name;
    std::vector<Lane> lanes;
};

std::vector<Plate> plates_in_order(std::vector<Lane> lanes) {
    std::stable_sort(lanes.begin(), lanes.end(),
                     [](const Lane &a, const Lane &b) { return a.fraction < b.fraction; });
    std::vector<Plate> plates;
    for (Lane &lane : lanes) {
        sort_by_rf(lane.spots);
        auto plate = std::find_if(plates.begin(), plates.end(),
                                  [&](const Plate &known) { return known.name == lane.plate; });
        if (plate == plates.end()) {
            plates.push_back({lane.plate, {}});
            plate = plates.end() - 1;
        }
        plate->lanes.push_back(std::move(lane));
    }
    return plates;
}

/// A spot that is the mean of those that several lanes show.
struct MeanSpot {
    double rf_sum = 0.0;
    double count = 0.0;
    double intensity_sum = 0.0;
    double intensities = 0.0;

    void add(const Spot &spot) {
        rf_sum += spot.rf;
        count += 1.0;
        if (spot.intensity) {
            intensity_sum += *spot.intensity;
            intensities += 1.0;
        }
    }

    [[nodiscard]] Spot mean() const {
        return {rf_sum / count,
                intensities > 0.0 ? std::optional(intensity_sum / intensities) : std::nullopt};
    }
};

/// What was seen of one fraction so far.
struct Gathered {
    std::vector<std::string> plates;
    std::vector<MeanSpot> spots; ///< the highest R_F first

    [[nodiscard]] std::vector<Spot> means() const {
        std::vector<Spot> result;
        for (const MeanSpot &spot : spots) {
            result.push_back(spot.mean());
        }
        return result;
    }

    void add(const std::vector<Spot> &seen, double tolerance) {
        const auto pairs = pair_spots(rf_values(means()), rf_values(seen), tolerance);
        std::vector<bool> is_known(seen.size());
        for (const auto &[known, spot] : pairs) {
            spots[known].add(seen[spot]);
            is_known[spot] = true;
        }
        for (std::size_t i = 0; i < seen.size(); ++i) {
            if (!is_known[i]) {
                spots.emplace_back().add(seen[i]);
            }
        }
        std::stable_sort(spots.begin(), spots.end(), [](const MeanSpot &a, const MeanSpot &b) {
            return a.mean().rf > b.mean().rf;
        });
    }
};

using GatheredFractions = std::map<int, Gathered>;

/// Mean R_M of each standard on one plate; without those at the start and the front.
std::map<std::string, double> standards_on(const std::string &plate,
                                           const std::vector<StandardSpot> &standards) {
    std::map<std::string, std::vector<double>> values;
    for (const StandardSpot &standard : standards) {
        if (standard.plate == plate && standard.rf > 0.0 && standard.rf < 1.0) {
            values[standard.label].push_back(quantities::r_m(standard.rf));
        }
    }
    std::map<std::string, double> means;
    for (const auto &[label, of_label] : values) {
        means[label] = std::accumulate(of_label.begin(), of_label.end(), 0.0) /
                       static_cast<double>(of_label.size());
    }
    return means;
}

/// By standards on this plate and on those before it, whose own shifts were taken off `known`; adds
/// those that are new.
PlateShift shift_by_standards(const Plate &plate, const std::vector<StandardSpot> &standards,
                              std::map<std::string, double> &known) {
    PlateShift shift{.plate = plate.name};
    const auto here = standards_on(plate.name, standards);
    std::vector<double> differences;
    for (const auto &[label, rm] : here) {
        if (const auto before = known.find(label); before != known.end()) {
            differences.push_back(rm - before->second);
        }
    }
    shift.shared_standards = differences.size();
    if (!differences.empty()) {
        shift.rm_shift = median(std::move(differences));
    }
    for (const auto &[label, rm] : here) {
        known.try_emplace(label, rm - shift.rm_shift);
    }
    return shift;
}

PlateShift shift_by_fractions(const Plate &plate, const GatheredFractions &before) {
    PlateShift shift{.plate = plate.name};
    std::vector<double> differences;
    for (const Lane &lane : plate.lanes) {
        const auto shared = before.find(lane.fraction);
        if (shared == before.end() || lane.spots.empty()) {
            continue;
        }
        const std::vector<Spot> known = shared->second.means();
        if (known.size() != lane.spots.size()) {
            continue;
        }
        const std::size_t told_before = differences.size();
        for (std::size_t i = 0; i < known.size(); ++i) {
            if (can_move(known[i]) && can_move(lane.spots[i])) {
                differences.push_back(lane.spots[i].rf - known[i].rf);
            }
        }
        shift.shared_fractions += differences.size() > told_before ? 1 : 0;
    }
    if (!differences.empty()) {
        shift.shift = median(std::move(differences));
    }
    return shift;
}

/// R_F as it would be on the plates before.
double moved(double rf, const PlateShift &shift) {
    return shift.shared_standards > 0 ? quantities::rf_of_r_m(quantities::r_m(rf) - shift.rm_shift)
                                      : std::clamp(rf - shift.shift, 0.0, 1.0);
}

void gather(const Plate &plate, const PlateShift &shift, double tolerance,
            GatheredFractions &gathered) {
    for (const Lane &lane : plate.lanes) {
        std::vector<Spot> spots = lane.spots;
        for (Spot &spot : spots) {
            spot.rf = can_move(spot) ? moved(spot.rf, shift) : spot.rf;
        }
        Gathered &fraction = gathered[lane.fraction];
        fraction.add(spots, tolerance);
        if (std::find(fraction.plates.begin(), fraction.plates.end(), plate.name) ==
            fraction.plates.end()) {
            fraction.plates.push_back(plate.name);
        }
    }
}

} // namespace

PlatedFractions read_together(std::vector<Lane> lanes, double tolerance,
                              const std::vector<StandardSpot> &standards) {
    PlatedFractions result;
    GatheredFractions gathered;
    std::map<std::string, double> known_standards; // R_M by label
    for (const Plate &plate : plates_in_order(std::move(lanes))) {
        PlateShift shift = shift_by_standards(plate, standards, known_standards);
        if (shift.shared_standards == 0) {
            shift = shift_by_fractions(plate, gathered);
        }
        if (!gathered.empty()) {
            result.shifts.push_back(shift);
        }
        gather(plate, shift, tolerance, gathered);
    }
    for (auto &[number, seen] : gathered) {
        Fraction fraction;
        fraction.number = number;
        fraction.plates = std::move(seen.plates);
        fraction.spots = seen.means();
        result.fractions.push_back(std::move(fraction));
    }
    return result;
}

} // namespace cospot::fractions
