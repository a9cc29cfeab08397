#include "library/merge_values.h"

#include "library/damage.h"
#include "library/ladders.h"
#include "library/measurements.h"
#include "library/runs.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace cospot::library {

namespace {

std::string ladder_text(const std::vector<LadderMember> &ladder) {
    std::string text;
    for (const LadderMember &member : ladder) {
        text += fmt::format("{}C{:g} {:g} min", text.empty() ? "" : ", ", member.carbon,
                            member.retention_time_min);
    }
    return text;
}

void merge_ladder(MergeContext &merge, RunId here_run, RunId there_run,
                  const std::string &subject) {
    const std::vector<LadderMember> there = ladder_of_run(merge.there, there_run);
    const std::vector<LadderMember> here = ladder_of_run(merge.here, here_run);
    const bool is_same =
        std::equal(here.begin(), here.end(), there.begin(), there.end(),
                   [](const LadderMember &a, const LadderMember &b) {
                       return a.carbon == b.carbon && a.retention_time_min == b.retention_time_min;
                   });
    if (there.empty() || is_same) {
        return;
    }
    if (here.empty()) {
        store_ladder(merge.here, here_run, there);
        return;
    }
    merge.summary.findings.push_back({"ladder", subject, ladder_text(here), ladder_text(there),
                                      "the ladder that this library holds stays"});
}

/// A value of the other library and whether it counts there.
struct ForeignValue {
    MeasurementId id{};
    Measurement measurement; ///< with ids of the other library
    std::optional<MeasurementId> superseded_by;
    std::optional<ChangeId> retired_by;

    [[nodiscard]] bool is_held() const { return !superseded_by && !retired_by; }
};

ForeignValue read_value(const Statement &row, const Database &there) {
    ForeignValue value;
    value.id = row.id<MeasurementId>(0);
    value.measurement.compound = row.id<CompoundId>(1);
    value.measurement.system = row.id<SystemId>(2);
    value.measurement.run = row.id<RunId>(3);
    value.measurement.quantity = sound(quantity_from_text(row.text(4)), there);
    value.measurement.value = row.real(5);
    value.measurement.uncertainty = row.optional_real(6);
    value.measurement.source = row.text(7);
    value.measurement.note = row.text(8);
    value.superseded_by = row.optional_id<MeasurementId>(9);
    value.retired_by = row.optional_id<ChangeId>(10);
    return value;
}

void retire(Database &database, MeasurementId value, ChangeId change) {
    database.cached("UPDATE measurement SET retired_change_id = ?2 WHERE id = ?1")
        .bind(1, value)
        .bind(2, change)
        .run();
}

/// Takes over values one by one, and remembers what can be told only at the end.
class ValueMerger {
public:
    ValueMerger(MergeContext &merge) : merge_(&merge), writer_(merge.here, merge.change) {}

    /// `placed`: the measurement with ids of this library.
    void add(const ForeignValue &there, const Measurement &placed) {
        const bool is_new = writer_.add(placed);
        const MeasurementId id = writer_.last_id();
        ids_.emplace(there.id, id);
        if (!is_new) {
            ++merge_->summary.values_known;
            compare_state(there, placed.system, id);
            return;
        }
        ++merge_->summary.values_added;
        if (there.retired_by) {
            retire(merge_->here, id, copy_change(*merge_, *there.retired_by));
        }
        if (there.superseded_by) {
            superseded_.emplace_back(id, *there.superseded_by);
        }
    }

    void finish() {
        for (const auto &[id, there] : superseded_) {
            const auto successor = ids_.find(there);
            if (successor == ids_.end()) {
                retire(merge_->here, id, merge_->change); // its correction was refused
                continue;
            }
            merge_->here.cached("UPDATE measurement SET superseded_by = ?2 WHERE id = ?1")
                .bind(1, id)
                .bind(2, successor->second)
                .run();
        }
        for (const auto &[where, count] : differences_) {
            report_difference(where.first, where.second, count);
        }
    }

private:
    void compare_state(const ForeignValue &there, SystemId system, MeasurementId id) {
        Statement &query = merge_->here.cached("SELECT 1 FROM measurement WHERE id = ?1 AND "
                                               "superseded_by IS NULL AND retired_change_id IS "
                                               "NULL");
        const bool is_held_here = query.bind(1, id).step();
        query.reset();
        if (is_held_here != there.is_held()) {
            ++differences_[{system, is_held_here}];
        }
    }

    void report_difference(SystemId system, bool is_held_here, std::size_t count) {
        Statement &query = merge_->here.cached("SELECT name FROM system WHERE id = ?1");
        const std::string name = query.bind(1, system).step() ? query.text(0) : "";
        query.reset();
        const char *const held = "in use";
        const char *const withdrawn = "retired or superseded";
        merge_->summary.findings.push_back(
            {"state", fmt::format("{} values on {}", count, name), is_held_here ? held : withdrawn,
             is_held_here ? withdrawn : held, "they stay as they are here (show --all tells)"});
    }

    MergeContext *merge_;
    MeasurementWriter writer_;
    IdMap<MeasurementId> ids_; ///< of all values taken over or already held
    std::vector<std::pair<MeasurementId, MeasurementId>> superseded_; ///< id here, successor there
    /// By system, and whether its values are held here: values of another state there.
    std::map<std::pair<SystemId, bool>, std::size_t> differences_;
};

/// Whether `learn` would take the value.
bool is_possible(const Measurement &measurement) {
    return is_physical(measurement.quantity, measurement.value) &&
           measurement.uncertainty.value_or(1.0) > 0.0;
}

void refuse_impossible(MergeContext &merge, const ForeignValue &there) {
    ++merge.summary.values_refused;
    merge.summary.findings.push_back(
        {"value", fmt::format("value {} of {}", there.id, merge.other), "nothing",
         fmt::format("{} {:g}", to_text(there.measurement.quantity), there.measurement.value),
         "refused: there is no such value"});
}

/// An id of the other library as it is here; throws DatabaseError where the other one is damaged.
template <class Id> Id placed_id(const MergeContext &merge, const IdMap<Id> &ids, Id there) {
    const auto found = ids.find(there);
    if (found == ids.end()) {
        report_damage(merge.there);
    }
    return found->second;
}

std::size_t count_values(Database &database) {
    Statement query = database.prepare("SELECT count(*) FROM measurement");
    return query.step() ? static_cast<std::size_t>(query.integer(0)) : 0;
}

} // namespace

IdMap<RunId> merge_runs(MergeContext &merge, const IdMap<SystemId> &systems) {
    IdMap<RunId> ids;
    Statement runs = merge.there.prepare("SELECT r.id, r.system_id, r.name, r.date, r.operator, "
                                         "r.instrument, s.name FROM run AS r "
                                         "JOIN system AS s ON s.id = r.system_id ORDER BY r.id");
    while (runs.step()) {
        const auto system = systems.find(runs.id<SystemId>(1));
        if (system == systems.end()) {
            continue;
        }
        const Run run{runs.text(2), runs.text(3), runs.text(4), runs.text(5)};
        const RunId id = find_or_add_run(merge.here, system->second, run, merge.change);
        ids.emplace(runs.id<RunId>(0), id);
        merge_ladder(merge, id, runs.id<RunId>(0),
                     fmt::format("run {} {} on {}", run.name, run.date, runs.text(6)));
    }
    return ids;
}

void merge_values(MergeContext &merge, const IdMap<CompoundId> &compounds,
                  const IdMap<SystemId> &systems, const IdMap<RunId> &runs,
                  const MergeOptions &options) {
    constexpr std::size_t between_calls = 1000;
    const std::size_t all = options.progress ? count_values(merge.there) : 0;
    std::size_t done = 0;
    ValueMerger merger(merge);
    // Values that count come first, so that they meet ours that count.
    Statement values = merge.there.prepare(
        "SELECT id, compound_id, system_id, run_id, quantity, value, uncertainty, source, note, "
        "superseded_by, retired_change_id FROM measurement "
        "ORDER BY superseded_by IS NOT NULL OR retired_change_id IS NOT NULL, id");
    while (values.step()) {
        if (options.progress && done % between_calls == 0) {
            options.progress(done, all);
        }
        ++done;
        const ForeignValue there = read_value(values, merge.there);
        const auto system = systems.find(there.measurement.system);
        if (system == systems.end()) {
            ++merge.summary.values_refused;
            continue;
        }
        if (!is_possible(there.measurement)) {
            refuse_impossible(merge, there);
            continue;
        }
        Measurement placed = there.measurement;
        placed.compound = placed_id(merge, compounds, there.measurement.compound);
        placed.system = system->second;
        placed.run = placed_id(merge, runs, there.measurement.run);
        merger.add(there, placed);
    }
    merger.finish();
}

} // namespace cospot::library
