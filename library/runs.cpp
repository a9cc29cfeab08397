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

} // namespace cospot::library
