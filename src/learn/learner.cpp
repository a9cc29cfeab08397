#include "learn/learner.h"

#include "evidence/reference_peak.h"
#include "library/compounds.h"
#include "library/corrections.h"
#include "library/ladders.h"
#include "library/near_names.h"
#include "library/systems.h"
#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>

namespace cospot {

namespace {

/// What a system is that only a value names.
library::System system_of_value(const std::string &name, Quantity quantity) {
    library::System system;
    system.name = name;
    switch (quantity) {
    case Quantity::Rf:
        system.technique = Technique::tlc;
        break;
    case Quantity::RI:
        system.technique = Technique::gc;
        break;
    case Quantity::k:
    case Quantity::tR:
    case Quantity::RRT:
    case Quantity::r:
        system.technique = Technique::hplc;
        break;
    }
    return system;
}

/// The reference compound itself is 1 by definition.
void check_is_no_reference(library::Database &database, const library::System &system,
                           library::CompoundId compound, const MeasurementRow &row) {
    for (const library::Compound &reference : library::find_by_name(database, system.reference)) {
        if (reference.id == compound) {
            throw InputError(row.at("value"),
                             fmt::format("{} {} of {}, the reference of {}", to_text(row.quantity),
                                         exact_text(row.value), row.compound,
                                         in_quotes(system.name)),
                             "1, or another reference of the system");
        }
    }
}

/// "run day 3 of 2026-11-11, by LK, on GC-03".
std::string run_in_words(const library::Run &run) {
    std::string words = run.name.empty() ? "a run without a name" : "run " + run.name;
    words += run.date.empty() ? " without a date" : " of " + run.date;
    words += run.operator_name.empty() ? "" : ", by " + run.operator_name;
    return words + (run.instrument.empty() ? "" : ", on " + run.instrument);
}

} // namespace

Learner::Learner(library::Database &database, library::ChangeId change, LearnerOptions options,
                 LearnSummary &summary)
    : database_(&database), change_(change), options_(options), summary_(&summary),
      compounds_(database, change, summary, options.accepts_corrected), labels_(database),
      replicates_(database), writer_(database, change) {}

void Learner::learn(const MeasurementRow &row) {
    const library::System &system = system_of(row);
    check_shows(system, row.quantity, row.at("quantity"));
    labels_.see(row);
    library::Measurement measurement;
    measurement.system = system.id;
    measurement.compound = compounds_.id_of({.name = row.compound,
                                             .smiles = row.smiles,
                                             .mol_block = "",
                                             .cas = row.cas,
                                             .where = row.where});
    if (is_relative(row.quantity) && row.value != 1.0) {
        check_is_no_reference(*database_, system, measurement.compound, row);
    }
    measurement.run = run_of(row, measurement.system);
    measurement.quantity = row.quantity;
    measurement.value = row.value;
    measurement.uncertainty = row.uncertainty;
    measurement.source = row.source;
    measurement.note = row.note;
    if (options_.correct) {
        correct(row, measurement);
        return;
    }
    const bool is_new = writer_.add(measurement);
    ++(is_new ? summary_->values_added : summary_->values_known);
    if (row.run.empty() && row.date.empty()) {
        ++(is_new ? summary_->added_without_run : summary_->known_without_run);
    } else if (is_new && row.date.empty()) {
        undated_.insert(measurement.run);
        summary_->runs_without_date = undated_.size();
    }
    if (is_new) {
        replicates_.see(measurement.system, row.quantity, measurement.compound, row.value,
                        row.where);
    }
}

void Learner::learn(const CompoundRow &row) {
    const library::CompoundId id = compounds_.id_of({.name = row.compound,
                                                     .smiles = row.smiles,
                                                     .mol_block = row.mol_block,
                                                     .cas = row.cas,
                                                     .where = row.where});
    for (const std::string &synonym : row.synonyms) {
        ++(library::add_synonym(*database_, id, synonym, change_) ? summary_->synonyms_added
                                                                  : summary_->synonyms_known);
    }
}

void Learner::keep_ladder(const MeasurementRow &row, const quantities::Ladder &ladder) {
    std::vector<library::LadderMember> members;
    members.reserve(ladder.points.size());
    for (const quantities::LadderPoint &point : ladder.points) {
        members.push_back({point.carbon, point.retention_time_min});
    }
    library::store_ladder(*database_, run_of(row, system_of(row).id), members);
}

void Learner::correct(const MeasurementRow &row, const library::Measurement &measurement) {
    const auto held = library::held_values(*database_, measurement.compound, measurement.run,
                                           measurement.quantity);
    for (const library::MeasurementId value : held) {
        // Of several values each stands for one row: a second equal row is a correction.
        if (library::says_the_same(*database_, value, measurement) &&
            (held.size() == 1 || confirmed_.insert(value).second)) {
            ++summary_->values_known;
            return;
        }
    }
    if (held.size() != 1) {
        throw InputError(
            row.at("value"),
            fmt::format("{} values of {} in {}", held.size(), row.compound,
                        run_in_words(last_run_.run)),
            "one value to correct: same compound, system, run, date, operator and quantity" +
                (held.empty() ? held_elsewhere(measurement)
                              : " (show --all tells the numbers of values, retire takes them)"));
    }
    library::supersede(*database_, held.front(), measurement, change_);
    ++summary_->values_corrected;
}

/// Where the library holds a value like the one that is to be corrected.
std::string Learner::held_elsewhere(const library::Measurement &measurement) const {
    constexpr std::size_t most = 3;
    std::vector<std::string> runs;
    for (const library::Run &run : library::runs_with_value(
             *database_, measurement.compound, measurement.system, measurement.quantity)) {
        runs.push_back(run_in_words(run));
    }
    if (runs.empty()) {
        return ", of which the library holds none in any run";
    }
    const std::size_t more = runs.size() - std::min(most, runs.size());
    runs.resize(runs.size() - more);
    return fmt::format("; the library holds one in {}{} (--run NAME, --date, --operator and "
                       "--instrument say which run a file is of)",
                       fmt::join(runs, " and in "),
                       more == 0 ? "" : fmt::format(" and in {}", counted(more, "other run")));
}

library::RunId Learner::run_of(const MeasurementRow &row, library::SystemId system) {
    const library::Run &last = last_run_.run;
    if (last_run_.id == library::RunId{} || last_run_.system != system || last.name != row.run ||
        last.date != row.date || last.operator_name != row.operator_name ||
        last.instrument != row.instrument) {
        last_run_.system = system;
        last_run_.run = {.name = row.run,
                         .date = row.date,
                         .operator_name = row.operator_name,
                         .instrument = row.instrument};
        last_run_.id = library::find_or_add_run(*database_, system, last_run_.run, change_);
    }
    return last_run_.id;
}

const library::System &Learner::system_of(const MeasurementRow &row) {
    const auto known = systems_.find(row.system);
    if (known != systems_.end()) {
        return known->second;
    }
    auto system = library::find_system(*database_, row.system);
    if (!system && options_.create_systems) {
        system = system_of_value(row.system, row.quantity);
        system->id = library::add_system(*database_, *system, {}, change_);
        ++summary_->systems_added;
        summary_->remarks.push_back(fmt::format(
            "system {}: created as {} because its values are {}; state its conditions with "
            "--systems",
            system->name, to_text(system->technique), to_text(row.quantity)));
    } else if (!system) {
        throw InputError(row.at("system"), in_quotes(row.system),
                         "a system that the library holds (describe it in a table for --systems, "
                         "or give --create-systems)" +
                             did_you_mean(*database_, row.system, NameOf::system));
    }
    if (system->retired) {
        summary_->remarks.push_back("system " + system->name +
                                    " is retired: its values do not "
                                    "count (cospot retire --undo takes that back)");
    }
    return systems_.emplace(row.system, *system).first->second;
}

} // namespace cospot
