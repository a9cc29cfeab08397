#include "evidence/chromatogram_runs.h"

#include "evidence/chromatogram_features.h"
#include "evidence/comparable_quantity.h"
#include "evidence/index_law.h"
#include "integration/integration.h"
#include "integration/ladder_trace.h"
#include "library/names.h"
#include "library/overview.h"
#include "library/systems.h"
#include "quantities/hold_up.h"
#include "quantities/index_scale.h"
#include "readers/input_file.h"
#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <utility>

namespace cospot {

namespace {

/// From its table, or from its trace.
quantities::Ladder ladder_of_settings(const InputSettings &settings,
                                      std::optional<quantities::IndexScale> scale,
                                      std::istream &standard_input,
                                      std::vector<std::string> &notes) {
    InputFile file(*settings.ladder_file, standard_input);
    LadderOfTrace found = ladder_of_file(file, scale,
                                         settings.ladder_gaps ? quantities::LadderGaps::interpolate
                                                              : quantities::LadderGaps::refuse,
                                         settings.ladder_aliases, settings.integration);
    if (!found.assignment.empty()) {
        notes.push_back(
            fmt::format("ladder of {}, by even spacing: {}", file.name(), found.assignment));
    }
    return std::move(found.ladder);
}

void set_ladder(ChromatogramReading &reading, const library::System &system,
                const InputSettings &settings, std::istream &standard_input,
                std::vector<std::string> &notes) {
    const auto scale = quantities::index_scale_from_text(system.scale);
    if (!scale && quantities::own_series_of(system.scale).empty()) {
        throw InputError({"command line, --system", 0, ""},
                         fmt::format("{}, which states no index scale", in_quotes(system.name)),
                         "a system with a scale for its ladder (set it in a table for "
                         "learn --systems)");
    }
    reading.ladder = ladder_of_settings(settings, scale, standard_input, notes);
    const ChosenLaw chosen = index_law_of(system);
    reading.law = chosen.law;
    const double first_min = reading.ladder->points.front().retention_time_min;
    if (reading.hold_up_min && *reading.hold_up_min >= first_min) {
        throw InputError(
            {"command line, --hold-up", 0, ""}, fmt::format("{} min", *reading.hold_up_min),
            fmt::format("a time before the first member of the ladder at {} min", first_min));
    }
    const bool logarithmic = chosen.law == quantities::IndexLaw::logarithmic;
    notes.push_back(
        fmt::format("retention index on the {} scale, {}{}",
                    scale ? quantities::to_text(*scale) : quantities::own_series_of(system.scale),
                    logarithmic ? "logarithmic (constant conditions)" : "linear (programmed)",
                    chosen.is_assumed ? ": assumed, the system states no programme" : ""));
    if (logarithmic && !reading.hold_up_min) {
        try {
            reading.hold_up_min = quantities::hold_up_from_homologues(reading.ladder->points);
        } catch (const InputError &error) {
            throw InputError({*settings.ladder_file, 0, ""}, error.found(),
                             error.expected() + "; or give the hold-up time with --hold-up MIN");
        }
        reading.hold_up_is_estimated = true;
        notes.push_back(fmt::format("hold-up time {:.3f} min, estimated from the ladder",
                                    *reading.hold_up_min));
    }
}

bool holds(library::Database &database, const library::System &system, Quantity quantity) {
    return library::values_up_to(database, system.id, quantity, 1) > 0;
}

} // namespace

void check_comparable(library::Database &database, const library::System &system,
                      const InputSettings &settings) {
    if (settings.ladder_file || settings.hold_up_min) {
        return;
    }
    if (holds(database, system, Quantity::tR) || holds(database, system, Quantity::RRT)) {
        return;
    }
    for (const auto &[quantity, option] :
         {std::pair(Quantity::RI, "--ladder"), std::pair(Quantity::k, "--hold-up"),
          std::pair(Quantity::r, "--hold-up")}) {
        if (holds(database, system, quantity)) {
            const ComparableQuantity &held = comparable_quantity(quantity);
            throw bad_usage(fmt::format("no {}", option),
                            fmt::format("{}: the library holds {} on {}", held.options, held.values,
                                        in_quotes(system.name)));
        }
    }
}

namespace {

/// The relative retention that a run without a ladder is read as; none where the library holds
/// other values that the settings allow.
std::optional<Quantity> relative_quantity(library::Database &database,
                                          const library::System &system,
                                          const InputSettings &settings) {
    if (settings.ladder_file || system.reference.empty()) {
        return std::nullopt;
    }
    const bool holds_unadjusted = holds(database, system, Quantity::RRT);
    if (!settings.hold_up_min) {
        return holds_unadjusted || !holds(database, system, Quantity::tR)
                   ? std::optional(Quantity::RRT)
                   : std::nullopt;
    }
    if (holds(database, system, Quantity::r)) {
        return Quantity::r;
    }
    if (holds(database, system, Quantity::k)) {
        return std::nullopt;
    }
    return holds_unadjusted ? Quantity::RRT : Quantity::r;
}

/// Finds the peak that relative retention counts from, and what is read relative to it. Returns the
/// peak that is only assumed to be the reference.
std::string set_reference(library::Database &database, const library::System &system,
                          const InputSettings &settings, const std::vector<Peak> &peaks,
                          const std::string &file, ChromatogramReading &reading,
                          std::vector<std::string> &notes) {
    if (settings.reference.peak && system.reference.empty()) {
        throw InputError({"command line, --reference-peak", 0, ""},
                         fmt::format("{}, which names no reference", in_quotes(system.name)),
                         "a system with a reference compound (column reference of a table for "
                         "learn --systems)");
    }
    const std::string reference =
        system.reference.empty() ? settings.reference.declared.value_or("") : system.reference;
    if (reference.empty()) {
        return "";
    }
    ReferenceChoice choice = settings.reference;
    if (settings.is_blank || system.reference.empty()) {
        choice = {}; // only a peak that the file itself names
    }
    const auto peak = find_reference_peak(database, reference, peaks, choice, file);
    reading.relative = relative_quantity(database, system, settings);
    if (peak) {
        reading.reference = peak->index;
    } else if (reading.relative && !settings.is_blank) {
        if (settings.hold_up_min || !holds(database, system, Quantity::tR)) {
            throw no_reference_peak(system, file);
        }
        notes.push_back(fmt::format("no peak of {}, the reference compound: compared by times",
                                    in_quotes(reference)));
    }
    if (!peak || !reading.relative) {
        return "";
    }
    notes.push_back(fmt::format(
        "{} to {}, peak {} at {:.3f} min{}",
        reading.relative == Quantity::RRT ? "unadjusted relative retention RRT = t_R/t_R(reference)"
                                          : "relative retention r = t'_R/t'_R(reference)",
        in_quotes(reference), peaks[peak->index].name, peaks[peak->index].retention_time_min,
        peak->is_assumed ? ": assumed, since it is the largest" : ""));
    return peak->is_assumed ? peaks[peak->index].name : "";
}

/// Throws InputError for a ladder that cannot be read for the system.
void check_ladder_of(library::Database &database, const InputSettings &settings,
                     std::istream &standard_input) {
    if (settings.ladder_file) {
        ChromatogramReading reading;
        std::vector<std::string> notes;
        set_ladder(reading, system_of_settings(database, settings, InputKind::chromatogram),
                   settings, standard_input, notes);
    }
}

/// Where no peak at all lies within the ladder, one of the two files is likely to be in seconds.
void warn_of_another_unit(const ChromatogramRun &run, const quantities::Ladder &ladder,
                          std::vector<std::string> &notes) {
    const bool is_any_read =
        std::any_of(run.set.features.begin(), run.set.features.end(),
                    [](const Feature &feature) { return !feature.observations.empty(); });
    if (is_any_read) {
        return;
    }
    const auto [first, last] =
        std::minmax_element(run.peaks.begin(), run.peaks.end(), [](const Peak &a, const Peak &b) {
            return a.retention_time_min < b.retention_time_min;
        });
    notes.push_back(fmt::format(
        "! no peak lies within the ladder: the peaks run from {:g} to {:g}, the ladder from {:g} "
        "to {:g}; are the times of one of them in seconds?",
        first->retention_time_min, last->retention_time_min,
        ladder.points.front().retention_time_min, ladder.points.back().retention_time_min));
}

/// One run of a file; the notes on how the file was read are the caller's.
ChromatogramRun read_run(library::Database &database, std::vector<Peak> peaks,
                         const std::string &file, const library::System &system,
                         const InputSettings &settings, std::istream &standard_input) {
    ChromatogramRun run;
    std::vector<std::string> notes;
    run.peaks = std::move(peaks);
    ChromatogramReading reading;
    const std::string &name = run.peaks.front().run;
    reading.sample =
        settings.sample.value_or(name.empty() ? std::filesystem::path(file).stem().string() : name);
    reading.system = system.name;
    reading.hold_up_min = settings.hold_up_min;
    reading.extrapolate = settings.extrapolate;
    reading.time_error_min = settings.time_error_min;
    if (settings.ladder_file) {
        set_ladder(reading, system, settings, standard_input, notes);
    }
    const std::string assumed =
        set_reference(database, system, settings, run.peaks, file, reading, notes);
    const bool gives_factors = settings.hold_up_min && !reading.ladder && !reading.relative;
    if (gives_factors && index_law_of(system).law == quantities::IndexLaw::linear) {
        notes.emplace_back("retention factors of a programmed run depend on the programme: they "
                           "hold on this very system only");
    }
    run.set = chromatogram_features(run.peaks, reading, file);
    run.set.scales[reading.sample].assumed_reference = assumed;
    if (reading.ladder) {
        warn_of_another_unit(run, *reading.ladder, notes);
    }
    run.set.notes = std::move(notes);
    run.ladder = reading.ladder;
    return run;
}

/// The run of a trace, whose peaks know it.
ChromatogramRun run_of_trace(library::Database &database, std::istream &in, const std::string &file,
                             const library::System &system, const InputSettings &settings,
                             std::istream &standard_input) {
    const Integration integration = integrate(in, file, settings.integration);
    std::vector<Peak> peaks = peaks_of(integration, settings.integration);
    if (peaks.empty()) {
        throw InputError({file, 0, ""}, "no peak in the trace",
                         "a trace with peaks above its noise (cospot peaks shows it)");
    }
    ChromatogramRun run =
        read_run(database, std::move(peaks), file, system, settings, standard_input);
    for (Feature &feature : run.set.features) {
        feature.trace = integration.recorded;
    }
    run.set.notes.insert(run.set.notes.begin(), integration.notes.begin(), integration.notes.end());
    run.set.notes.push_back(fmt::format("{}: {} found in the trace ({}) with {}", file,
                                        counted(integration.found.peaks.size(), "peak"),
                                        integration.format,
                                        settings.integration.uses_stored_peaks
                                            ? "the file's own table used instead"
                                            : settings_words(integration, settings.integration)));
    return run;
}

/// The peaks of a table, run by run. Faults of the table and of the ladder are told together.
std::vector<std::vector<Peak>> read_table(library::Database &database, std::istream &in,
                                          const std::string &file, const InputSettings &settings,
                                          std::istream &standard_input,
                                          std::vector<std::string> &notes) {
    try {
        return by_run(read_chromatogram(in, file, settings.form, &notes));
    } catch (const InputError &fault) {
        Faults faults;
        faults.add(fault);
        try {
            check_ladder_of(database, settings, standard_input);
        } catch (const InputError &of_ladder) {
            faults.add(of_ladder);
        }
        faults.throw_any();
        throw; // not reached: there is a fault
    }
}

} // namespace

std::vector<ChromatogramRun> read_chromatogram_runs(library::Database &database, std::istream &in,
                                                    const std::string &file,
                                                    const InputSettings &settings,
                                                    std::istream &standard_input) {
    if (holds_trace(in)) {
        const library::System system =
            system_of_settings(database, settings, InputKind::chromatogram);
        std::vector<ChromatogramRun> runs;
        runs.push_back(run_of_trace(database, in, file, system, settings, standard_input));
        return runs;
    }
    std::vector<std::string> notes;
    std::vector<std::vector<Peak>> peaks =
        read_table(database, in, file, settings, standard_input, notes);
    const library::System system = system_of_settings(database, settings, InputKind::chromatogram);
    if (peaks.size() > 1 && settings.sample) {
        throw bad_usage("--sample for several runs", "the names of the runs in the column run");
    }
    std::vector<ChromatogramRun> runs;
    for (std::vector<Peak> &own : peaks) {
        runs.push_back(read_run(database, std::move(own), file, system, settings, standard_input));
    }
    if (!runs.empty()) {
        std::vector<std::string> &first = runs.front().set.notes;
        first.insert(first.begin(), notes.begin(), notes.end());
    }
    return runs;
}

} // namespace cospot
