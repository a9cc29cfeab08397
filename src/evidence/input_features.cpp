#include "evidence/input_features.h"

#include "evidence/chromatogram_features.h"
#include "evidence/index_law.h"
#include "evidence/plate_features.h"
#include "library/compounds.h"
#include "library/measurements.h"
#include "library/systems.h"
#include "matcher/system_model.h"
#include "quantities/hold_up.h"
#include "quantities/index_scale.h"
#include "readers/feature_table.h"
#include "readers/input_file.h"
#include "readers/ladder_table.h"
#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <filesystem>
#include <sstream>

namespace cospot {

namespace {

library::System system_named(library::Database &database, const InputSettings &settings,
                             const char *kind) {
    if (!settings.system) {
        throw InputError({"command line", 0, ""}, "no --system",
                         fmt::format("--system NAME: the system that the {} was run on "
                                     "(cospot list systems)",
                                     kind));
    }
    const auto system = library::find_system(database, *settings.system);
    if (!system) {
        throw InputError({"command line", 0, "--system"}, in_quotes(*settings.system),
                         "a system that the library holds (cospot list systems)");
    }
    return *system;
}

void check_technique(const library::System &system, bool is_planar, const char *kind) {
    const bool planar = system.technique == Technique::tlc || system.technique == Technique::paper;
    if (planar != is_planar) {
        throw InputError(
            {"command line", 0, "--system"},
            fmt::format("{}, a {} system", in_quotes(system.name), to_text(system.technique)),
            fmt::format("a system that a {} can be run on", kind));
    }
}

/// The library's mean R_F of a compound on a system.
ReferenceRf reference_on(library::Database &database, const library::System &system) {
    std::vector<matcher::KnownValue> known;
    for (const library::HeldValue &value :
         library::values_on_system(database, system.id, Quantity::Rf)) {
        known.push_back(
            {static_cast<std::size_t>(value.compound), value.run, value.run_is_named, value.value});
    }
    const matcher::SystemModel model = matcher::fit_system(Quantity::Rf, known);
    return [&database, model](const std::string &name) -> std::optional<quantities::Uncertain> {
        for (const library::Compound &compound : library::find_by_name(database, name)) {
            if (const auto *candidate =
                    matcher::find_candidate(model, static_cast<std::size_t>(compound.id))) {
                return quantities::Uncertain{candidate->mean, candidate->mean_uncertainty};
            }
        }
        return std::nullopt;
    };
}

FeatureSet features_of_plate(library::Database &database, std::istream &in, const std::string &file,
                             const InputSettings &settings) {
    const std::vector<PlateSpot> spots = read_plate(in, file);
    const library::System system = system_named(database, settings, "plate");
    check_technique(system, true, "plate");
    return plate_features(spots, {system.name, settings.reading_error_mm, settings.correct},
                          reference_on(database, system), file);
}

void set_ladder(ChromatogramReading &reading, const library::System &system,
                const InputSettings &settings, std::istream &standard_input,
                std::vector<std::string> &notes) {
    const auto scale = quantities::index_scale_from_text(system.scale);
    if (!scale) {
        throw InputError({"command line", 0, "--system"},
                         fmt::format("{}, which states no index scale", in_quotes(system.name)),
                         "a system with a scale for its ladder (set it in a table for "
                         "learn --systems)");
    }
    InputFile file(*settings.ladder_file, standard_input);
    reading.ladder = read_ladder(file.stream(), file.name(), *scale,
                                 settings.ladder_gaps ? quantities::LadderGaps::interpolate
                                                      : quantities::LadderGaps::refuse);
    const ChosenLaw chosen = index_law_of(system);
    reading.law = chosen.law;
    const double first_min = reading.ladder->points.front().retention_time_min;
    if (reading.hold_up_min && *reading.hold_up_min >= first_min) {
        throw InputError(
            {"command line", 0, "--hold-up"}, fmt::format("{} min", *reading.hold_up_min),
            fmt::format("a time before the first member of the ladder at {} min", first_min));
    }
    const bool logarithmic = chosen.law == quantities::IndexLaw::logarithmic;
    notes.push_back(
        fmt::format("retention index on the {} scale, {}{}", quantities::to_text(*scale),
                    logarithmic ? "logarithmic (constant conditions)" : "linear (programmed)",
                    chosen.is_assumed ? ": assumed, the system states no programme" : ""));
    if (logarithmic && !reading.hold_up_min) {
        try {
            reading.hold_up_min = quantities::hold_up_from_homologues(reading.ladder->points);
        } catch (const InputError &error) {
            throw InputError({file.name(), 0, ""}, error.found(),
                             error.expected() + "; or give the hold-up time with --hold-up MIN");
        }
        reading.hold_up_is_estimated = true;
        notes.push_back(fmt::format("hold-up time {:.3f} min, estimated from the ladder",
                                    *reading.hold_up_min));
    }
}

FeatureSet features_of_chromatogram(library::Database &database, std::istream &in,
                                    const std::string &file, const InputSettings &settings,
                                    std::istream &standard_input) {
    const std::vector<Peak> peaks = read_chromatogram(in, file);
    const library::System system = system_named(database, settings, "chromatogram");
    check_technique(system, false, "chromatogram");
    ChromatogramReading reading;
    reading.sample = settings.sample.value_or(std::filesystem::path(file).stem().string());
    reading.system = system.name;
    reading.hold_up_min = settings.hold_up_min;
    reading.extrapolate = settings.extrapolate;
    reading.time_error_min = settings.time_error_min;
    std::vector<std::string> notes;
    if (settings.ladder_file) {
        set_ladder(reading, system, settings, standard_input, notes);
    } else if (!settings.hold_up_min && !system.scale.empty() &&
               library::values_on_system(database, system.id, Quantity::tR).empty()) {
        throw InputError({"command line", 0, ""}, "no --ladder",
                         fmt::format("--ladder FILE: system {} works with a retention index on the "
                                     "{} scale",
                                     in_quotes(system.name), system.scale));
    }
    FeatureSet set = chromatogram_features(peaks, reading, file);
    set.notes = std::move(notes);
    return set;
}

} // namespace

FeatureSet read_features(library::Database &database, const std::string &content,
                         const std::string &file, const InputSettings &settings,
                         std::istream &standard_input) {
    std::istringstream in(content);
    switch (input_kind(content, file)) {
    case InputKind::plate:
        return features_of_plate(database, in, file, settings);
    case InputKind::chromatogram:
        return features_of_chromatogram(database, in, file, settings, standard_input);
    case InputKind::feature_table:
        break;
    }
    return read_feature_table(in, file);
}

} // namespace cospot
