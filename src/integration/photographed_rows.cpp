#include "integration/photographed_rows.h"

#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

namespace cospot {

namespace {

void require_start(const PhotographedPlate &plate) {
    if (!plate.first.found.start) {
        throw InputError({plate.first.file, 0, ""}, "no start line that can be seen",
                         "--start-mm MM, its distance from the lower edge of the plate");
    }
}

double rf_of(const PhotographedPlate &plate, const PhotographedSpot &spot) {
    require_start(plate);
    if (!spot.rf) {
        throw InputError({plate.first.file, 0, ""}, "no solvent front that can be seen",
                         "--front-mm MM, its distance from the lower edge of the plate");
    }
    return spot.rf->value;
}

FurtherEvidence evidence_of(const PhotographedSpot &spot, const std::string &stain) {
    FurtherEvidence evidence;
    evidence.uv254 = spot.uv254;
    if (spot.stained && !stain.empty()) {
        evidence.stains.push_back({stain, *spot.stained});
    }
    return evidence;
}

/// The number of the fraction on a lane: as the user names it, else that of the lane.
int fraction_of(const PhotographedPlate &plate, const NamedLane *named, std::size_t lane) {
    if (named == nullptr) {
        return static_cast<int>(lane);
    }
    const auto number = fraction_number(named->name);
    if (!number) {
        throw InputError({plate.first.file, 0, fmt::format("lane {}", lane)},
                         in_quotes(named->name),
                         "the number of its fraction (--lane LANE=NUMBER), or --standard "
                         "LANE=COMPOUND");
    }
    return *number;
}

/// The lane with the sample of which a column is planned.
std::size_t sample_lane(const PhotographedPlate &plate, const PhotoSettings &settings) {
    const std::size_t lanes = plate.first.found.lanes.size();
    if (settings.sample_lane) {
        if (*settings.sample_lane < 1 || *settings.sample_lane > lanes) {
            throw InputError({"command line, --sample-lane", 0, ""},
                             std::to_string(*settings.sample_lane),
                             fmt::format("a lane from 1 to {}", lanes));
        }
        return *settings.sample_lane;
    }
    std::vector<std::size_t> samples;
    for (std::size_t lane = 1; lane <= lanes; ++lane) {
        const NamedLane *named = name_of_lane(settings, lane);
        if (named == nullptr || !named->is_standard) {
            samples.push_back(lane);
        }
    }
    if (samples.size() != 1) {
        throw InputError({plate.first.file, 0, ""}, counted(samples.size(), "lane") + " of samples",
                         "--sample-lane LANE: the one of which a column is planned");
    }
    return samples.front();
}

} // namespace

std::vector<PlateSpot> plate_rows(const PhotographedPlate &plate, const PhotoSettings &settings) {
    require_start(plate);
    std::vector<PlateSpot> rows;
    for (const PhotographedSpot &spot : plate.spots) {
        const NamedLane *named = name_of_lane(settings, spot.lane);
        PlateSpot row;
        row.lane = std::to_string(spot.lane);
        row.spot = std::to_string(spot.spot);
        row.label = named == nullptr ? "" : named->name;
        row.role = named != nullptr && named->is_standard ? RowRole::standard : RowRole::sample;
        row.distance_mm = std::max(0.0, spot.distance_mm);
        row.front_mm = spot.front_mm;
        if (spot.front_mm) {
            row.distance_mm = std::min(row.distance_mm, *spot.front_mm);
        }
        if (spot.rf) {
            row.uncertainty = spot.rf->standard_uncertainty;
        }
        row.further = evidence_of(spot, settings.stain);
        rows.push_back(std::move(row));
    }
    return rows;
}

FractionTable fraction_rows(const PhotographedPlate &plate, const PhotoSettings &settings) {
    FractionTable table;
    std::set<int> numbers;
    for (std::size_t lane = 1; lane <= plate.first.found.lanes.size(); ++lane) {
        const NamedLane *named = name_of_lane(settings, lane);
        const bool is_standard = named != nullptr && named->is_standard;
        fractions::Lane fraction;
        fraction.lane = std::to_string(lane);
        for (const PhotographedSpot &spot : plate.spots) {
            if (spot.lane == lane && is_standard) {
                table.standards.push_back({"", named->name, rf_of(plate, spot)});
            } else if (spot.lane == lane) {
                fraction.spots.push_back({rf_of(plate, spot), spot.found.intensity});
                table.fronts_mm.push_back(*spot.front_mm);
            }
        }
        if (is_standard) {
            continue;
        }
        fraction.fraction = fraction_of(plate, named, lane);
        if (!numbers.insert(fraction.fraction).second) {
            throw InputError({plate.first.file, 0, fmt::format("lane {}", lane)},
                             fmt::format("fraction {} again", fraction.fraction),
                             "each fraction on one lane");
        }
        table.lanes.push_back(std::move(fraction));
    }
    table.notes = plate.notes;
    return table;
}

ColumnTable column_rows(const PhotographedPlate &plate, const PhotoSettings &settings) {
    ColumnTable table;
    const std::size_t lane = sample_lane(plate, settings);
    for (const PhotographedSpot &spot : plate.spots) {
        if (spot.lane == lane) {
            fractions::PlateCompound compound;
            compound.name = fmt::format("spot {}", spot.spot);
            compound.rf = rf_of(plate, spot);
            table.compounds.push_back(std::move(compound));
        }
    }
    if (table.compounds.empty()) {
        throw InputError({plate.first.file, 0, ""}, fmt::format("no spot in lane {}", lane),
                         "a lane with the spots of a sample");
    }
    table.notes = plate.notes;
    return table;
}

} // namespace cospot
