#include "library/overview.h"

#include "library/damage.h"
#include "library/fits.h"
#include "shared/date.h"

#include <algorithm>
#include <set>

namespace cospot::library {

namespace {

/// What a query of two counts gives.
Counts counts_from(Statement &query) {
    Counts counts;
    if (query.step()) {
        counts = {query.integer(0), query.integer(1)};
    }
    query.reset();
    return counts;
}

} // namespace

std::string_view to_text(ValueState state) {
    switch (state) {
    case ValueState::held:
        return "held";
    case ValueState::superseded:
        return "superseded";
    case ValueState::retired:
        return "retired";
    }
    return "";
}

std::size_t independent_runs(std::span<const MeasurementRecord> values) {
    std::set<std::vector<std::string>> runs;
    std::size_t alone = 0;
    for (const MeasurementRecord &value : values) {
        if (value.state != ValueState::held) {
            continue;
        }
        if (value.run.empty() && value.date.empty()) {
            ++alone;
        } else if (is_day(value.date)) {
            runs.insert({value.system, value.date});
        } else {
            runs.insert(
                {value.system, value.date, value.run, value.operator_name, value.instrument});
        }
    }
    return runs.size() + alone;
}

Counts counts_of_compound(Database &database, CompoundId compound) {
    return counts_from(
        database
            .cached("SELECT count(*), count(DISTINCT system_id) FROM measurement WHERE "
                    "compound_id = ?1 AND superseded_by IS NULL AND retired_change_id IS NULL")
            .bind(1, compound));
}

Counts counts_of_system(Database &database, SystemId system) {
    return counts_from(
        database
            .cached("SELECT count(*), count(DISTINCT compound_id) FROM measurement WHERE "
                    "system_id = ?1 AND superseded_by IS NULL AND retired_change_id IS NULL")
            .bind(1, system));
}

std::int64_t values_up_to(Database &database, SystemId system, Quantity quantity,
                          std::int64_t most) {
    if (const auto kept = kept_fit(database, system, quantity)) {
        return std::min(kept->values, most);
    }
    Statement &query = database.cached(
        "SELECT count(*) FROM (SELECT 1 FROM measurement WHERE system_id = ?1 AND quantity = ?2 "
        "AND superseded_by IS NULL AND retired_change_id IS NULL LIMIT ?3)");
    const bool is_there = query.bind(1, system).bind(2, to_text(quantity)).bind(3, most).step();
    const std::int64_t count = is_there ? query.integer(0) : 0;
    query.reset();
    return count;
}

std::vector<MeasuredQuantity> quantities_of_compound(Database &database, CompoundId compound) {
    Statement &query = database.cached(
        "SELECT DISTINCT s.name, m.quantity FROM measurement AS m JOIN system AS s ON "
        "s.id = m.system_id WHERE m.compound_id = ?1 AND m.superseded_by IS NULL AND "
        "m.retired_change_id IS NULL");
    query.bind(1, compound);
    std::vector<MeasuredQuantity> measured;
    while (query.step()) {
        measured.push_back({query.text(0), sound(quantity_from_text(query.text(1)), database)});
    }
    query.reset();
    return measured;
}

std::vector<Quantity> quantities_on_system(Database &database, SystemId system) {
    std::vector<Quantity> quantities;
    for (const Quantity quantity :
         {Quantity::RI, Quantity::Rf, Quantity::k, Quantity::RRT, Quantity::r, Quantity::tR}) {
        if (values_up_to(database, system, quantity, 1) > 0) {
            quantities.push_back(quantity);
        }
    }
    return quantities;
}

} // namespace cospot::library
