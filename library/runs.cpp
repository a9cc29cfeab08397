#include "library/runs.h"

namespace cospot::library {

RunId find_or_add_run(Database &database, SystemId system, const Run &run, ChangeId change) {
    const auto bind = [&](Statement &statement) -> Statement & {
        return statement.bind(1, system)
            .bind(2, run.name)
            .bind(3, run.date)
            .bind(4, run.operator_name)
            .bind(5, run.instrument);
    };
    Statement &query = bind(database.cached("SELECT id FROM run WHERE system_id = ?1 AND name = ?2 "
                                            "AND date = ?3 AND operator = ?4 AND instrument = ?5"));
    const bool known = query.step();
    const auto id = known ? query.id<RunId>(0) : RunId{};
    query.reset();
    if (known) {
        return id;
    }
    bind(database.cached("INSERT INTO run (system_id, name, date, operator, instrument, change_id) "
                         "VALUES (?1, ?2, ?3, ?4, ?5, ?6)"))
        .bind(6, change)
        .run();
    return database.last_insert_id<RunId>();
}

std::vector<Run> runs_with_value(Database &database, CompoundId compound, SystemId system,
                                 Quantity quantity) {
    Statement query = database.prepare(
        "SELECT DISTINCT run.name, run.date, run.operator, run.instrument FROM measurement "
        "JOIN run ON run.id = measurement.run_id WHERE compound_id = ?1 AND "
        "measurement.system_id = ?2 AND quantity = ?3 AND superseded_by IS NULL AND "
        "retired_change_id IS NULL ORDER BY run.date DESC, run.name");
    query.bind(1, compound).bind(2, system).bind(3, to_text(quantity));
    std::vector<Run> runs;
    while (query.step()) {
        runs.push_back({.name = query.text(0),
                        .date = query.text(1),
                        .operator_name = query.text(2),
                        .instrument = query.text(3)});
    }
    return runs;
}

} // namespace cospot::library
