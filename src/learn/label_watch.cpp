#include "learn/label_watch.h"

#include "evidence/fitted_system.h"
#include "library/compounds.h"
#include "library/systems.h"

#include <fmt/format.h>

namespace cospot {

const matcher::SystemModel &LabelWatch::model_of(const System &system) {
    const auto known = models_.find(system);
    if (known != models_.end()) {
        return known->second;
    }
    const auto held = library::find_system(*database_, system.first);
    return models_
        .emplace(system,
                 held ? fitted_system(*database_, held->id, system.second) : matcher::SystemModel{})
        .first->second;
}

std::string LabelWatch::name_of(std::size_t compound) {
    return library::find_compound(*database_, library::CompoundId(compound)).value().name;
}

void LabelWatch::see(const MeasurementRow &row) {
    if (row.run.empty() && row.date.empty()) {
        return;
    }
    const System system{row.system, row.quantity};
    if (model_of(system).candidates.empty()) {
        return;
    }
    auto [id, is_new] = compounds_.try_emplace(row.compound);
    if (is_new) {
        const auto found = library::find_by_name(*database_, row.compound);
        if (found.size() == 1) {
            id->second = found.front().id;
        }
    }
    if (id->second) {
        runs_[{system, row.run, row.date}].push_back(
            {{static_cast<std::size_t>(*id->second), row.value, row.uncertainty.value_or(0.0)},
             row.is_label,
             row.where.line,
             row.note.starts_with("lane ") ? row.note : ""});
    }
}

std::string LabelWatch::doubt_about(const Run &run, const std::vector<Seen> &seen) {
    const auto &[system, name, date] = run;
    std::vector<matcher::LabelledReading> readings;
    readings.reserve(seen.size());
    for (const Seen &one : seen) {
        readings.push_back(one.reading);
    }
    const matcher::LabelCheck check = matcher::check_labels(readings, model_of(system));
    // A table of values has no labels that could be one wrong; exchanged rows it may have.
    if (!check.is_doubted() ||
        (check.fault == matcher::LabelFault::one_wrong && !seen.front().is_label)) {
        return {};
    }
    std::string which;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const auto &other = check.would_be[i];
        if (other == seen[i].reading.compound) {
            continue;
        }
        const Seen &one = seen[i];
        which += fmt::format("{}{} ({}) runs as {}", which.empty() ? "" : ", ",
                             name_of(one.reading.compound),
                             one.lane.empty() ? fmt::format("line {}", one.line) : one.lane,
                             other ? name_of(*other) : "another compound");
    }
    return fmt::format("! run {} on {}: {}: {} (all labels are right with probability {:.2g})",
                       name.empty() ? date : name, system.first, matcher::fault_words(check), which,
                       check.as_given);
}

std::vector<std::string> LabelWatch::doubts() {
    std::vector<std::string> found;
    for (const auto &[run, seen] : runs_) {
        constexpr std::size_t most = 60; // more are a collection of values, not standards of a run
        if (seen.size() < 2 || seen.size() > most) {
            continue;
        }
        if (std::string doubt = doubt_about(run, seen); !doubt.empty()) {
            found.push_back(std::move(doubt));
        }
    }
    runs_.clear();
    return found;
}

} // namespace cospot
