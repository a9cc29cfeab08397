#include "library/runs.h"

namespace cospot::library {

std::int64_t find_or_add_run(Database &database, std::int64_t system, const Run &run,
                             std::int64_t change) {
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
    const std::int64_t id = known ? query.integer(0) : 0;
    query.reset();
    if (known) {
        return id;
    }
    bind(database.cached("INSERT INTO run (system_id, name, date, operator, instrument, change_id) "
                         "VALUES (?1, ?2, ?3, ?4, ?5, ?6)"))
        .bind(6, change)
        .run();
    return database.last_insert_id();
}

} // namespace cospot::library
