#include "learn/raw_run.h"

#include "evidence/chromatogram_runs.h"
#include "evidence/plate_input.h"
#include "evidence/unmarked_standards.h"
#include "integration/integration.h"
#include "library/compounds.h"
#include "library/measurements.h"
#include "library/systems.h"
#include "readers/plate_table.h"
#include "report/presentation.h"
#include "shared/text.h"
#include "shared/usual_headers.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <utility>

namespace cospot {

namespace {

/// `Raw` is a spot or peak; `run` is what its file calls the plate or run.
template <typename Raw>
MeasurementRow row_of_run(const std::string &file, const Raw &raw, const std::string &run,
                          const std::string &system, const RunDetails &details) {
    MeasurementRow row;
    row.system = system;
    row.run = !run.empty()          ? run
              : details.run.empty() ? std::filesystem::path(file).stem().string()
                                    : details.run;
    row.date = raw.date.empty() ? details.date : raw.date;
    row.smiles = raw.smiles;
    row.cas = raw.cas;
    row.operator_name = details.operator_name;
    row.instrument = details.instrument;
    row.source = details.source;
    row.is_label = true;
    row.where = {file, raw.line, ""};
    return row;
}

/// The reference is 1 by definition, without any error: learned in every run it would make the
/// system look as if nothing scattered there.
bool is_held_reference(library::Database &database, const std::string &compound,
                       const FeatureObservation &observation) {
    const auto system = library::find_system(database, observation.system);
    if (!is_relative(observation.quantity) || observation.uncertainty > 0.0 || !system) {
        return false;
    }
    const auto known = library::find_by_name(database, compound);
    const auto held = library::values_on_system(database, system->id, observation.quantity);
    return std::any_of(held.begin(), held.end(), [&](const library::HeldValue &value) {
        return std::any_of(known.begin(), known.end(),
                           [&](const library::Compound &one) { return one.id == value.compound; });
    });
}

void check_any(const RawRun &run, const std::string &file, const std::string &expected) {
    if (run.rows.empty()) {
        throw InputError({file, 0, ""}, "no known standard to learn", expected);
    }
}

void learn_plate(library::Database &database, const std::vector<PlateSpot> &spots,
                 const std::string &file, const RunDetails &details, RawRun &run) {
    const Where where{file, spots.front().line, "system"};
    const library::System system = system_of_settings(
        database, with_system(details.reading, spots.front().system, where), InputKind::plate);
    std::vector<MeasurementRow> rows;
    for (const PlateSpot &spot : spots) {
        if (spot.role != RowRole::standard) {
            continue;
        }
        (void)stated_front_mm(spot, file);
        const quantities::Uncertain rf = rf_of(spot, details.reading.reading_error_mm);
        MeasurementRow row = row_of_run(file, spot, spot.plate, system.name, details);
        row.compound = spot.label;
        row.quantity = Quantity::Rf;
        row.value = rf.value;
        row.uncertainty = rf.standard_uncertainty;
        row.note = fmt::format("lane {}", spot.lane);
        rows.push_back(std::move(row));
    }
    std::move(rows.begin(), rows.end(), std::back_inserter(run.rows));
}

} // namespace

RawRun standards_of_plates(library::Database &database, std::istream &in, const std::string &file,
                           const RunDetails &details) {
    RawRun run;
    std::vector<std::string> notes;
    std::string hint;
    const TableForm &form = details.reading.form;
    for (const std::vector<PlateSpot> &spots :
         by_plate(read_plate_spots(database, in, file, details.reading, notes))) {
        if (const auto words = unmarked_standards_words(spots, database)) {
            hint = "; " + *words;
            const std::string &plate = spots.front().plate;
            notes.push_back(plate.empty() ? *words : with_name(plate, *words));
        }
        try {
            learn_plate(database, spots, file, details, run);
        } catch (const InputError &fault) {
            if (!form.is_partial) {
                throw;
            }
            notes.push_back(
                fmt::format("! plate {} is left out: {}", spots.front().plate, fault.what()));
        }
    }
    for (const std::string &note : notes) {
        run.is_partial |= note.starts_with(kWarningMark);
        run.remarks.push_back(with_name(file, note));
    }
    check_any(run, file, "spots with the role standard and the compound's name as label" + hint);
    return run;
}

namespace {

/// What a run gave, and whether it named a standard at all.
struct LearnedRun {
    RawRun raw;
    std::string name;
    bool has_standard = false;
    bool is_held = false;  ///< a standard is the reference, which the library holds already
    std::string why_not{}; ///< the first standard that gave nothing, and why
};

LearnedRun standards_of_run(library::Database &database, ChromatogramRun read,
                            const std::string &file, const RunDetails &details) {
    LearnedRun learned{.raw = {}, .name = read.peaks.front().run};
    RawRun &run = learned.raw;
    for (const std::string &note : read.set.notes) {
        run.is_partial |= details.reading.form.is_partial && note.starts_with(kWarningMark);
        run.remarks.push_back(with_name(file, note));
    }
    for (std::size_t i = 0; i < read.peaks.size(); ++i) {
        const Peak &peak = read.peaks[i];
        const Feature &feature = read.set.features[i];
        if (peak.compound.empty()) {
            continue;
        }
        learned.has_standard = true;
        if (feature.observations.empty()) {
            run.remarks.push_back(fmt::format("{}: {} is not learned ({})", file, peak.compound,
                                              feature.warnings.front()));
            learned.why_not = learned.why_not.empty() ? run.remarks.back() : learned.why_not;
            continue;
        }
        const FeatureObservation &observation = feature.observations.front();
        if (is_held_reference(database, peak.compound, observation)) {
            learned.is_held = true;
            run.remarks.push_back(
                fmt::format("{}: {} is the reference, whose {} of 1 the library holds already",
                            file, peak.compound, to_text(observation.quantity)));
            continue;
        }
        MeasurementRow row = row_of_run(file, peak, peak.run, observation.system, details);
        row.compound = peak.compound;
        row.quantity = observation.quantity;
        row.value = observation.value;
        if (observation.uncertainty > 0.0) {
            row.uncertainty = observation.uncertainty;
        }
        row.note = observation.extrapolated ? "index extrapolated" : "";
        run.rows.push_back(std::move(row));
    }
    run.ladder = std::move(read.ladder);
    return learned;
}

/// What to write for the header that usually means the compound; empty where the table has none.
std::string proposed_compound(std::istream &in, const std::string &file,
                              const std::vector<ColumnAlias> &aliases) {
    in.clear();
    in.seekg(0);
    if (!in || holds_trace(in)) {
        return "";
    }
    const TableReader table(in, file, {{"tR", true, "min"}, {"compound"}, {"area"}}, aliases);
    const std::string maps =
        table.has("compound") ? "" : proposed_maps(table.header(), {"compound"});
    return maps.empty() ? "" : "; perhaps " + maps;
}

/// Throws InputError where no run gives anything, which is a slip.
void check_any_learned(const std::vector<LearnedRun> &runs, std::istream &in,
                       const std::string &file, const std::vector<ColumnAlias> &aliases) {
    std::string why_not;
    for (const LearnedRun &run : runs) {
        if (!run.raw.rows.empty() || run.is_held) {
            return;
        }
        why_not = why_not.empty() ? run.why_not : why_not;
    }
    if (!why_not.empty()) {
        throw InputError({file, 0, ""}, "no standard that can be learned: " + why_not,
                         "a standard that the ladder or the reference gives a value for");
    }
    throw InputError({file, 0, ""}, "no known standard to learn",
                     "a column compound that names the known peaks and is empty for the others; "
                     "--map compound=HEADER says what your table calls it" +
                         proposed_compound(in, file, aliases));
}

/// Runs of samples beside those with standards give nothing.
std::string without_standard(const std::vector<LearnedRun> &runs, const std::string &file) {
    std::string names;
    std::size_t count = 0;
    for (const LearnedRun &run : runs) {
        if (!run.has_standard) {
            names += (names.empty() ? "" : ", ") + run.name;
            ++count;
        }
    }
    return count == 0 ? ""
                      : fmt::format("{}: {} without a standard left out: {}", file,
                                    counted(count, "run"), names);
}

} // namespace

std::vector<RawRun> standards_of_chromatograms(library::Database &database, std::istream &in,
                                               const std::string &file, const RunDetails &details,
                                               std::istream &standard_input) {
    std::vector<LearnedRun> learned;
    for (ChromatogramRun &read :
         read_chromatogram_runs(database, in, file, details.reading, standard_input)) {
        learned.push_back(standards_of_run(database, std::move(read), file, details));
    }
    check_any_learned(learned, in, file, details.reading.form.aliases);
    if (std::string remark = without_standard(learned, file); !remark.empty()) {
        learned.front().raw.remarks.push_back(std::move(remark));
    }
    std::vector<RawRun> runs;
    for (LearnedRun &run : learned) {
        runs.push_back(std::move(run.raw));
    }
    return runs;
}

} // namespace cospot
