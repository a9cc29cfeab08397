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
    std::optional<ChangeId> compound_retired; ///< the change that retired its compound
    std::string compound;
};

RetiredState state_of_value(Database &database, MeasurementId id) {
    Statement &query =
        database.cached("SELECT m.retired_change_id, s.retired_change_id, s.name, "
                        "c.retired_change_id, c.name "
                        "FROM measurement AS m JOIN system AS s ON s.id = m.system_id "
                        "JOIN compound AS c ON c.id = m.compound_id "
                        "WHERE m.id = ?1");
    if (!query.bind(1, id).step()) {
        query.reset();
        throw bad_usage(fmt::format("value {}", id),
                        "the id of a value of the library (cospot show NAME --all)");
    }
    RetiredState state{query.optional_id<ChangeId>(0), query.optional_id<ChangeId>(1),
                       query.text(2), query.optional_id<ChangeId>(3), query.text(4)};
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

/// The statements that withdraw a system or a compound with its values. In all of them ?1 is its
/// id.
struct Withdrawal {
    const char *state; ///< the change that retired it
    const char *mark;  ///< ?2: the change that retires it, or none
    const char *count; ///< values with the change ?2 that nothing else withdraws
    const char *move;  ///< gives values with the change ?2 the change ?3, or that of what else
                       ///< withdraws them
};

constexpr Withdrawal kSystem{
    "SELECT retired_change_id FROM system WHERE id = ?1",
    "UPDATE system SET retired_change_id = ?2 WHERE id = ?1",
    "SELECT count(*) FROM measurement AS m JOIN compound AS c ON c.id = m.compound_id "
    "WHERE m.system_id = ?1 AND m.retired_change_id IS ?2 AND c.retired_change_id IS NULL",
    "UPDATE measurement SET retired_change_id = coalesce(?3, (SELECT retired_change_id "
    "FROM compound WHERE id = compound_id)) WHERE system_id = ?1 AND retired_change_id IS ?2"};

constexpr Withdrawal kCompound{
    "SELECT retired_change_id FROM compound WHERE id = ?1",
    "UPDATE compound SET retired_change_id = ?2 WHERE id = ?1",
    "SELECT count(*) FROM measurement AS m JOIN system AS s ON s.id = m.system_id "
    "WHERE m.compound_id = ?1 AND m.retired_change_id IS ?2 AND s.retired_change_id IS NULL",
    "UPDATE measurement SET retired_change_id = coalesce(?3, (SELECT retired_change_id "
    "FROM system WHERE id = system_id)) WHERE compound_id = ?1 AND retired_change_id IS ?2"};

template <IsId Id>
std::optional<ChangeId> retirement(Database &database, const Withdrawal &what, Id id) {
    Statement &query = database.cached(what.state);
    const auto change = query.bind(1, id).step() ? query.optional_id<ChangeId>(0) : std::nullopt;
    query.reset();
    return change;
}

/// Gives values of a system or compound another state. Returns how many changed it.
template <IsId Id>
std::size_t move_values(Database &database, const Withdrawal &what, Id id,
                        std::optional<ChangeId> from, std::optional<ChangeId> to) {
    Statement &query = database.cached(what.count);
    const std::size_t count =
        query.bind(1, id).bind(2, from).step() ? static_cast<std::size_t>(query.integer(0)) : 0;
    query.reset();
    database.cached(what.move).bind(1, id).bind(2, from).bind(3, to).run();
    return count;
}

/// Withdraws a system or a compound; nothing where that was done before.
template <IsId Id>
std::optional<std::size_t> withdraw(Database &database, const Withdrawal &what, Id id,
                                    const std::string &detail) {
    if (retirement(database, what, id)) {
        return std::nullopt;
    }
    const ChangeId change = begin_change(database, kRetire, detail);
    database.cached(what.mark).bind(1, id).bind(2, change).run();
    note_subject(database, change, id);
    return move_values(database, what, id, std::nullopt, change);
}

/// Takes that back; nothing where it is in use.
template <IsId Id>
std::optional<std::size_t> take_back(Database &database, const Withdrawal &what, Id id,
                                     const std::string &detail) {
    const auto retired = retirement(database, what, id);
    if (!retired) {
        return std::nullopt;
    }
    const ChangeId change = begin_change(database, kTakeBack, detail);
    database.cached(what.mark).bind(1, id).bind(2, std::optional<ChangeId>()).run();
    note_subject(database, change, id);
    note_values(database, *retired, change);
    return move_values(database, what, id, retired, std::nullopt);
}

/// Makes a change in a transaction of its own, which is committed where something changed.
template <class MakeChange>
std::optional<std::size_t> committed(Database &database, const MakeChange &make_change) {
    Transaction transaction(database);
    const std::optional<std::size_t> changed = make_change();
    if (changed) {
        transaction.commit();
    }
    return changed;
}

std::optional<Change> change_of(Statement &query) {
    std::optional<Change> change;
    if (query.step()) {
        change = Change{query.text(0), query.text(1), query.text(2)};
    }
    query.reset();
    return change;
}

System system_at_option(Database &database, std::string_view name) {
    return system_named(database, std::string(name), {"command line, --system", 0, ""});
}

Compound compound_at_option(Database &database, const std::string &name) {
    return compound_named(database, name, {"command line, --compound", 0, ""});
}

/// The retired one of the compounds that have the name, whatever is in use under it.
Compound compound_to_take_back(Database &database, const std::string &name) {
    std::vector<Compound> retired = all_by_name(database, name);
    std::erase_if(retired, [](const Compound &one) { return !one.retired; });
    return retired.size() == 1 ? retired.front() : compound_at_option(database, name);
}

std::string detail_of(std::string_view reason, std::string_view kind, std::string_view name) {
    return fmt::format("{} ({} {})", reason, kind, name);
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
    const ChangeId change = begin_change(database, kTakeBack, detail_of_values(reason, ids));
    RetireSummary summary;
    for (const MeasurementId id : ids) {
        const RetiredState state = state_of_value(database, id);
        if (state.system_retired) {
            throw bad_usage(fmt::format("value {} on {}, which is retired as a whole", id,
                                        in_quotes(state.system)),
                            "a value on a system in use (retire --undo --system comes first)");
        }
        if (state.compound_retired) {
            throw bad_usage(fmt::format("value {} of {}, which is retired as a whole", id,
                                        in_quotes(state.compound)),
                            "a value of a compound in use (retire --undo --compound comes first)");
        }
        if (state.retired) {
            note_value(database, id, *state.retired, change);
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
    return committed(database, [&] {
        const System system = system_at_option(database, name);
        return withdraw(database, kSystem, system.id, detail_of(reason, "system", system.name));
    });
}

std::optional<std::size_t> take_back_system(Database &database, std::string_view name,
                                            std::string_view reason) {
    return committed(database, [&] {
        const System system = system_at_option(database, name);
        return take_back(database, kSystem, system.id, detail_of(reason, "system", system.name));
    });
}

std::optional<std::size_t> retire_compound(Database &database, const std::string &name,
                                           std::string_view reason) {
    return committed(database, [&] {
        const Compound compound = compound_at_option(database, name);
        return withdraw(database, kCompound, compound.id,
                        detail_of(reason, "compound", compound.name));
    });
}

std::optional<std::size_t> take_back_compound(Database &database, const std::string &name,
                                              std::string_view reason) {
    return committed(database, [&] {
        const Compound compound = compound_to_take_back(database, name);
        return take_back(database, kCompound, compound.id,
                         detail_of(reason, "compound", compound.name));
    });
}

std::optional<Change> retirement_of_compound(Database &database, CompoundId compound) {
    return change_of(database
                         .cached("SELECT h.who, h.at_utc, h.detail FROM compound AS c JOIN change "
                                 "AS h ON h.id = c.retired_change_id WHERE c.id = ?1")
                         .bind(1, compound));
}

std::optional<Change> retirement_of_system(Database &database, SystemId system) {
    return change_of(database
                         .cached("SELECT h.who, h.at_utc, h.detail FROM system AS s JOIN change "
                                 "AS h ON h.id = s.retired_change_id WHERE s.id = ?1")
                         .bind(1, system));
}

} // namespace cospot::library
