#include "library/retire.h"

#include "library/names.h"
#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace cospot::library {

namespace {

constexpr std::string_view kRetire = "retire";
constexpr std::string_view kTakeBack = "retire --undo";

struct RetiredState {
    std::optional<ChangeId> retired;        ///< the change that retired the value
    std::optional<ChangeId> system_retired; ///< the change that retired its system
    std::string system;
};

RetiredState state_of_value(Database &database, MeasurementId id) {
    Statement &query =
        database.cached("SELECT m.retired_change_id, s.retired_change_id, s.name "
                        "FROM measurement AS m JOIN system AS s ON s.id = m.system_id "
                        "WHERE m.id = ?1");
    if (!query.bind(1, id).step()) {
        query.reset();
        throw bad_usage(fmt::format("value {}", id),
                        "the id of a value of the library (cospot show NAME --all)");
    }
    RetiredState state{query.optional_id<ChangeId>(0), query.optional_id<ChangeId>(1),
                       query.text(2)};
    query.reset();
    return state;
}

/// Sets or clears the retirement of a value.
void mark_value(Database &database, MeasurementId id, std::optional<ChangeId> change) {
    database.cached("UPDATE measurement SET retired_change_id = ?2 WHERE id = ?1")
        .bind(1, id)
        .bind(2, change)
        .run();
}

std::string detail_of_values(std::string_view reason, const std::vector<MeasurementId> &ids) {
    return fmt::format("{} ({} {})", reason, ids.size() == 1 ? "value" : "values",
                       fmt::join(ids, ", "));
}

std::string detail_of_system(std::string_view reason, std::string_view name) {
    return fmt::format("{} (system {})", reason, name);
}

struct SystemState {
    SystemId id{};
    std::optional<ChangeId> retired;
    std::string name;
};

SystemState state_of_system(Database &database, std::string_view name) {
    const System system =
        system_named(database, std::string(name), {"command line, --system", 0, ""});
    Statement &query = database.cached("SELECT retired_change_id FROM system WHERE id = ?1");
    const SystemState state{
        system.id, query.bind(1, system.id).step() ? query.optional_id<ChangeId>(0) : std::nullopt,
        system.name};
    query.reset();
    return state;
}

void mark_system(Database &database, SystemId id, std::optional<ChangeId> change) {
    database.cached("UPDATE system SET retired_change_id = ?2 WHERE id = ?1")
        .bind(1, id)
        .bind(2, change)
        .run();
}

/// Gives the values of a system another state; `from` tells which of them. Returns how many.
std::size_t move_values(Database &database, SystemId system, std::optional<ChangeId> from,
                        std::optional<ChangeId> to) {
    database
        .cached("UPDATE measurement SET retired_change_id = ?3 "
                "WHERE system_id = ?1 AND retired_change_id IS ?2")
        .bind(1, system)
        .bind(2, from)
        .bind(3, to)
        .run();
    Statement &count = database.cached("SELECT changes()");
    const std::size_t changed = count.step() ? static_cast<std::size_t>(count.integer(0)) : 0;
    count.reset();
    return changed;
}

} // namespace

RetireSummary retire_values(Database &database, const std::vector<MeasurementId> &ids,
                            std::string_view reason) {
    Transaction transaction(database);
    const ChangeId change = begin_change(database, kRetire, detail_of_values(reason, ids));
    RetireSummary summary;
    for (const MeasurementId id : ids) {
        if (state_of_value(database, id).retired) {
            ++summary.unchanged;
            continue;
        }
        mark_value(database, id, change);
        ++summary.changed;
    }
    if (summary.changed > 0) {
        transaction.commit();
    }
    return summary;
}

RetireSummary take_back_values(Database &database, const std::vector<MeasurementId> &ids,
                               std::string_view reason) {
    Transaction transaction(database);
    (void)begin_change(database, kTakeBack, detail_of_values(reason, ids));
    RetireSummary summary;
    for (const MeasurementId id : ids) {
        const RetiredState state = state_of_value(database, id);
        if (state.system_retired) {
            throw bad_usage(fmt::format("value {} on {}, which is retired as a whole", id,
                                        in_quotes(state.system)),
                            "a value on a system in use (retire --undo --system comes first)");
        }
        ++(state.retired ? summary.changed : summary.unchanged);
        mark_value(database, id, std::nullopt);
    }
    if (summary.changed > 0) {
        transaction.commit();
    }
    return summary;
}

std::optional<std::size_t> retire_system(Database &database, std::string_view name,
                                         std::string_view reason) {
    Transaction transaction(database);
    const SystemState system = state_of_system(database, name);
    if (system.retired) {
        return std::nullopt;
    }
    const ChangeId change = begin_change(database, kRetire, detail_of_system(reason, system.name));
    mark_system(database, system.id, change);
    const std::size_t changed = move_values(database, system.id, std::nullopt, change);
    transaction.commit();
    return changed;
}

std::optional<std::size_t> take_back_system(Database &database, std::string_view name,
                                            std::string_view reason) {
    Transaction transaction(database);
    const SystemState system = state_of_system(database, name);
    if (!system.retired) {
        return std::nullopt;
    }
    (void)begin_change(database, kTakeBack, detail_of_system(reason, system.name));
    mark_system(database, system.id, std::nullopt);
    const std::size_t changed = move_values(database, system.id, system.retired, std::nullopt);
    transaction.commit();
    return changed;
}

std::optional<Change> retirement_of_system(Database &database, SystemId system) {
    Statement &query = database.cached("SELECT h.who, h.at_utc, h.detail FROM system AS s "
                                       "JOIN change AS h ON h.id = s.retired_change_id "
                                       "WHERE s.id = ?1");
    std::optional<Change> retirement;
    if (query.bind(1, system).step()) {
        retirement = Change{query.text(0), query.text(1), query.text(2)};
    }
    query.reset();
    return retirement;
}

} // namespace cospot::library
