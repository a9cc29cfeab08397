#include "library/ladders.h"

namespace cospot::library {

void store_ladder(Database &database, RunId run, const std::vector<LadderMember> &ladder) {
    for (const LadderMember &member : ladder) {
        database
            .cached("INSERT OR IGNORE INTO ladder_member (run_id, carbon, retention_time_min) "
                    "VALUES (?1, ?2, ?3)")
            .bind(1, run)
            .bind(2, member.carbon)
            .bind(3, member.retention_time_min)
            .run();
    }
}

std::vector<LadderMember> ladder_of_run(Database &database, RunId run) {
    Statement &query = database.cached("SELECT carbon, retention_time_min FROM ladder_member "
                                       "WHERE run_id = ?1 ORDER BY carbon");
    query.bind(1, run);
    std::vector<LadderMember> ladder;
    while (query.step()) {
        ladder.push_back({query.real(0), query.real(1)});
    }
    query.reset();
    return ladder;
}

} // namespace cospot::library
