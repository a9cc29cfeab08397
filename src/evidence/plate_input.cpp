#include "evidence/plate_input.h"

#include "evidence/plate_features.h"
#include "evidence/plate_front.h"
#include "evidence/unmarked_standards.h"
#include "integration/photographed_rows.h"
#include "library/names.h"
#include "library/overview.h"
#include "readers/plate_spots.h"
#include "readers/plate_table.h"
#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <utility>
#include <vector>

namespace cospot {

namespace {

constexpr const char *kThisPlate = "this plate"; // a system without a name

bool has_standards(const std::vector<PlateSpot> &spots) {
    return std::any_of(spots.begin(), spots.end(),
                       [](const PlateSpot &spot) { return spot.role == RowRole::standard; });
}

/// A plate with standards needs no system of the library where the library holds none that could be
/// meant.
bool stands_for_itself(const std::vector<PlateSpot> &spots, library::Database &database,
                       const InputSettings &settings) {
    const auto systems = library::all_systems(database);
    const bool holds_planar =
        std::any_of(systems.begin(), systems.end(), [](const library::System &system) {
            return can_show(system.technique, Quantity::Rf);
        });
    return settings.may_stand_alone && has_standards(spots) &&
           (systems.empty() || (!holds_planar && !settings.system));
}

/// What makes the standards of a first plate the beginning of a library.
std::string how_to_learn(const std::string &file, const std::string &system, bool is_known) {
    return fmt::format("to keep this plate's standards for the next one: cospot learn {} --system "
                       "{}{} (compounds that the library does not know go first, in a table "
                       "compound,smiles)",
                       file, in_quotes(system), is_known ? "" : " --systems SYSTEMS.csv");
}

/// One plate on a system of the library; where nobody marked the front, its standards tell it.
FeatureSet features_on_system(std::vector<PlateSpot> spots, PlateReading reading,
                              library::Database &database, const library::System &system,
                              const std::string &file) {
    std::vector<std::string> notes;
    if (!spots.front().front_mm) {
        const EstimatedFront front =
            front_from_standards(spots, database, system, reading.reading_error_mm, file);
        for (PlateSpot &spot : spots) {
            spot.front_mm = front.distance_mm;
        }
        reading.front_error_mm = front.error_mm;
        notes.push_back(fmt::format(
            "{}no front was stated: by {} of the library it ran {:.1f} mm (standard uncertainty "
            "{:.1f} mm)",
            reading.plate.empty() ? "" : reading.plate + ": ", counted(front.standards, "standard"),
            front.distance_mm, front.error_mm));
    }
    if (has_standards(spots) && library::values_up_to(database, system.id, Quantity::Rf, 1) == 0) {
        notes.push_back(fmt::format("the library holds no Rf on {} yet; {}", system.name,
                                    how_to_learn(file, system.name, true)));
    }
    FeatureSet set = plate_features(spots, reading, file);
    if (reading.front_error_mm > 0.0) {
        for (Feature &feature : set.features) {
            feature.warnings.push_back(fmt::format("the front was not marked: by standards of the "
                                                   "library it ran {:.1f} ± {:.1f} mm",
                                                   *spots.front().front_mm,
                                                   reading.front_error_mm));
        }
    }
    set.notes = std::move(notes);
    return set;
}

FeatureSet features_alone(const std::vector<PlateSpot> &spots, const PlateReading &reading,
                          const std::string &file) {
    (void)stated_front_mm(spots.front(), file);
    FeatureSet set = plate_features(spots, reading, file);
    set.notes.push_back(fmt::format("{} is no system of the library: the samples are compared "
                                    "with the standards on the plate alone",
                                    reading.system));
    set.notes.push_back(
        how_to_learn(file, reading.system == kThisPlate ? "NAME" : reading.system, false));
    return set;
}

} // namespace

std::vector<PlateSpot> read_plate_spots(library::Database &database, std::istream &in,
                                        const std::string &file, const InputSettings &settings,
                                        std::vector<std::string> &notes) {
    if (!holds_photo(in)) {
        TableForm form = settings.form;
        form.is_same_compound = [&database](const std::string &a, const std::string &b) {
            return is_same_compound(database, a, b);
        };
        return read_plate(in, file, form, &notes);
    }
    const PhotographedPlate plate = read_photo(in, file, settings.photo);
    notes = plate.notes;
    notes.push_back(fmt::format("{} in {} were found in the photo {}: look at them with cospot "
                                "photo --report",
                                counted(plate.spots.size(), "spot"),
                                counted(plate.first.found.lanes.size(), "lane"), file));
    std::vector<PlateSpot> spots = plate_rows(plate, settings.photo);
    if (spots.empty()) {
        throw InputError({file, 0, ""}, "no spot in the photo",
                         "a plate with spots, or --spots LANE:MM,MM,...");
    }
    LeftOut nothing(false);
    check_standards(spots, file, nothing);
    return spots;
}

FeatureSet features_of_plates(library::Database &database, std::istream &in,
                              const std::string &file, const InputSettings &settings) {
    FeatureSet set;
    for (std::vector<PlateSpot> &spots :
         by_plate(read_plate_spots(database, in, file, settings, set.notes))) {
        PlateReading reading;
        reading.plate = spots.front().plate;
        reading.reading_error_mm = settings.reading_error_mm;
        if (reading.plate.empty() && settings.is_one_of_several) {
            reading.plate = std::filesystem::path(file).stem().string();
        }
        if (const auto words = unmarked_standards_words(spots, database)) {
            set.notes.push_back((reading.plate.empty() ? "" : reading.plate + ": ") + *words);
        }
        const InputSettings own =
            with_system(settings, spots.front().system, {file, spots.front().line, "system"});
        if (stands_for_itself(spots, database, own)) {
            reading.system = own.system.value_or(kThisPlate);
            reading.is_outside_library = true;
            append(set, features_alone(spots, reading, file));
        } else {
            const library::System system = system_of_settings(database, own, InputKind::plate);
            reading.system = system.name;
            append(set, features_on_system(std::move(spots), std::move(reading), database, system,
                                           file));
        }
    }
    return set;
}

} // namespace cospot
