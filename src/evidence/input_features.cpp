#include "evidence/input_features.h"

#include "evidence/chromatogram_runs.h"
#include "evidence/plate_input.h"
#include "integration/integration.h"
#include "integration/photographed_plate.h"
#include "library/names.h"
#include "library/systems.h"
#include "readers/feature_table.h"
#include "shared/error.h"
#include "shared/text.h"

#include <boost/interprocess/streams/bufferstream.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>

namespace cospot {

namespace {

library::System system_asked_for(library::Database &database, const InputSettings &settings,
                                 const char *kind) {
    if (!settings.system) {
        throw bad_usage("no --system",
                        fmt::format("--system NAME: the system that the {} was run on "
                                    "(cospot list systems){}",
                                    kind,
                                    kind == std::string_view("plate")
                                        ? ", or a column system of its table"
                                        : ""));
    }
    return system_named(database, *settings.system, settings.system_where);
}

void check_technique(const library::System &system, bool is_planar, const char *kind,
                     const Where &where) {
    if (can_show(system.technique, Quantity::Rf) != is_planar) {
        throw InputError(
            where,
            fmt::format("{}, a {} system", in_quotes(system.name), to_text(system.technique)),
            fmt::format("a system that a {} can be run on", kind));
    }
}

} // namespace

InputSettings with_system(InputSettings settings, const std::string &of_table, const Where &where) {
    if (!of_table.empty()) {
        if (settings.system && !equal_ignoring_case(*settings.system, of_table)) {
            throw InputError(where, in_quotes(of_table),
                             in_quotes(*settings.system) + " as --system says, or no --system");
        }
        settings.system = of_table;
        settings.system_where = where;
    }
    return settings;
}

library::System system_of_settings(library::Database &database, const InputSettings &settings,
                                   InputKind kind) {
    const bool is_plate = kind == InputKind::plate;
    const char *name = is_plate ? "plate" : "chromatogram";
    library::System system = system_asked_for(database, settings, name);
    check_technique(system, is_plate, name, settings.system_where);
    return system;
}

void append(FeatureSet &all, FeatureSet more) {
    const auto move_all = [](auto &from, auto &to) {
        to.insert(to.end(), std::make_move_iterator(from.begin()),
                  std::make_move_iterator(from.end()));
    };
    move_all(more.features, all.features);
    move_all(more.standards, all.standards);
    move_all(more.cospots, all.cospots);
    for (std::string &note : more.notes) {
        if (std::find(all.notes.begin(), all.notes.end(), note) == all.notes.end()) {
            all.notes.push_back(std::move(note));
        }
    }
    move_all(more.lead, all.lead);
    all.scales.merge(more.scales);
    all.needs_attention |= more.needs_attention;
}

namespace {

/// Settings that this kind of file does not use are slips.
void check_settings(InputKind kind, const InputSettings &settings) {
    const bool is_timed =
        settings.ladder_file || settings.hold_up_min || settings.reference.peak.has_value();
    if (kind == InputKind::feature_table && (settings.system || is_timed)) {
        throw bad_usage("--system, --ladder, --hold-up or --reference-peak",
                        "none of them: a long table names the system of each value");
    }
    if (kind != InputKind::plate && !settings.form.standards.empty()) {
        throw bad_usage("--standards without a plate",
                        "a plate, or a column compound that names the standards");
    }
    if (kind == InputKind::plate && is_timed) {
        throw bad_usage("--ladder, --hold-up or --reference-peak with a plate", "none of them");
    }
    if (settings.reference.peak && settings.ladder_file) {
        throw bad_usage("--reference-peak with --ladder",
                        "one of them: an index counts from the ladder");
    }
}

/// Gives the systems of a table the names that the library has for them. A relative retention tells
/// something only on a column whose reference compound is known.
void look_up_systems(library::Database &database, FeatureSet &set) {
    for (Feature &feature : set.features) {
        for (FeatureObservation &observation : feature.observations) {
            const auto system = library::find_system(database, observation.system);
            if (!system) {
                continue; // refused where it is looked up for the evidence
            }
            observation.system = system->name;
            if (is_relative(observation.quantity)) {
                check_shows(*system, observation.quantity,
                            {observation.where.file, observation.where.line, "quantity"});
            }
        }
    }
}

bool is_standard(const Peak &peak, const InputSettings &settings) {
    return !peak.compound.empty() && (settings.names_are_standards || peak.is_stated_standard);
}

/// Takes the standards out of the features. The other peaks keep their names where these are no
/// standards.
FeatureSet with_standards_apart(ChromatogramRun run, const InputSettings &settings) {
    FeatureSet set = std::move(run.set);
    std::vector<Feature> features = std::move(set.features);
    set.features.clear();
    for (std::size_t i = 0; i < features.size(); ++i) {
        Feature &feature = features[i];
        const std::string &compound = run.peaks[i].compound;
        if (!is_standard(run.peaks[i], settings)) {
            feature.named = settings.names_are_standards ? "" : run.peaks[i].named;
            set.features.push_back(std::move(feature));
        } else if (feature.observations.empty()) {
            set.notes.push_back(fmt::format("standard {} (peak {}): {}", compound, feature.name,
                                            feature.warnings.front()));
        } else {
            set.standards.push_back(
                {compound, feature.name, "", feature.run, std::move(feature.observations.front()),
                 feature.retention_time_min, feature.area, feature.ppm, "compound"});
        }
    }
    return set;
}

/// "3 named peaks were taken as standards of their runs, not judged: anisole, ...": what stands in
/// a run beside its sample, or in runs of standards only, must be seen before the answer is read.
std::string standards_words(const std::vector<ChromatogramRun> &runs,
                            const InputSettings &settings) {
    constexpr std::size_t most = 6;
    std::size_t count = 0;
    std::string names;
    for (const ChromatogramRun &run : runs) {
        for (const Peak &peak : run.peaks) {
            if (is_standard(peak, settings) && ++count <= most) {
                names += (names.empty() ? "" : ", ") + peak.compound +
                         (runs.size() > 1 ? fmt::format(" ({})", peak.run) : "");
            }
        }
    }
    if (count == 0) {
        return "";
    }
    return fmt::format("{} taken as {}, not judged: {}{}.{}",
                       count == 1 ? "1 named peak was" : fmt::format("{} named peaks were", count),
                       count == 1 ? "a standard of its run" : "standards of their runs", names,
                       count > most ? fmt::format(" and {} more", count - most) : "",
                       settings.names_are_standards
                           ? " With the role sample a named peak counts as one of the sample."
                           : "");
}

FeatureSet read_any(library::Database &database, const std::string &content,
                    const std::string &file, const InputSettings &settings,
                    std::istream &standard_input) {
    boost::interprocess::ibufferstream in(content.data(), content.size()); // no copy
    const InputKind kind = holds_trace(in)   ? InputKind::chromatogram
                           : holds_photo(in) ? InputKind::plate
                                             : input_kind(content, file, settings.form.aliases);
    check_settings(kind, settings);
    switch (kind) {
    case InputKind::plate:
        return features_of_plates(database, in, file, settings);
    case InputKind::chromatogram: {
        const library::System system =
            system_of_settings(database, settings, InputKind::chromatogram);
        if (!settings.is_blank) {
            check_comparable(database, system, settings);
        }
        FeatureSet set;
        auto runs = read_chromatogram_runs(database, in, file, settings, standard_input);
        if (std::string words = standards_words(runs, settings); !words.empty()) {
            set.lead.push_back(std::move(words));
        }
        for (ChromatogramRun &run : runs) {
            append(set, with_standards_apart(std::move(run), settings));
        }
        return set;
    }
    case InputKind::feature_table:
        break;
    }
    FeatureSet set = read_feature_table(in, file, settings.form, settings.names_are_standards);
    look_up_systems(database, set);
    return set;
}

} // namespace

FeatureSet read_features(library::Database &database, const std::string &content,
                         const std::string &file, const InputSettings &settings,
                         std::istream &standard_input) {
    FeatureSet set = read_any(database, content, file, settings, standard_input);
    set.needs_attention |= std::any_of(set.notes.begin(), set.notes.end(),
                                       [](const auto &note) { return note.starts_with("! "); });
    if (set.features.empty()) {
        throw InputError({file, 0, ""}, "standards only",
                         "a spot or peak of a sample (role sample), or learn for standards");
    }
    return set;
}

} // namespace cospot
