#include "library/history.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <map>

namespace cospot::library {

namespace {

/// Narrows values, runs and subjects: an unset id and an empty run let everything pass.
#define OF_COMPOUND "(?1 IS NULL OR compound_id = ?1)"
#define OF_SYSTEM "(?2 IS NULL OR system_id = ?2)"
#define OF_RUN "(?3 IS NULL OR run_id IN (SELECT id FROM run WHERE name = ?3))"
#define OF_ALL_THREE OF_COMPOUND " AND " OF_SYSTEM " AND " OF_RUN

/// The newest ?4 changes that are asked for, and how many there are.
constexpr const char *kChangesInQuestion =
    "WITH asked AS (SELECT change_id AS id FROM measurement WHERE " OF_ALL_THREE
    " UNION SELECT retired_change_id FROM measurement WHERE " OF_ALL_THREE
    " AND retired_change_id IS NOT NULL"
    " UNION SELECT change_id FROM change_subject WHERE " OF_ALL_THREE
    " UNION SELECT change_id FROM run WHERE ?1 IS NULL AND " OF_SYSTEM
    " AND (?3 IS NULL OR name = ?3)"
    // What follows belongs to a compound or a system as a whole, not to a run.
    " UNION SELECT change_id FROM compound WHERE id = ?1 AND ?3 IS NULL"
    " UNION SELECT change_id FROM synonym WHERE compound_id = ?1 AND ?3 IS NULL"
    " UNION SELECT change_id FROM former_structure WHERE compound_id = ?1 AND ?3 IS NULL"
    " UNION SELECT change_id FROM response WHERE ?3 IS NULL AND "
    "(compound_id = ?1 OR relative_to_id = ?1 OR system_id = ?2)"
    " UNION SELECT change_id FROM system WHERE id = ?2 AND ?3 IS NULL"
    " UNION SELECT change_id FROM system_name WHERE system_id = ?2 AND ?3 IS NULL"
    // All of the library.
    " UNION SELECT id FROM change WHERE ?1 IS NULL AND ?2 IS NULL AND ?3 IS NULL) "
    "SELECT h.id, who, at_utc, detail, action, command, count(*) OVER () FROM change AS h "
    "JOIN asked ON asked.id = h.id ORDER BY at_utc DESC, h.id DESC LIMIT ?4";

void bind_question(Statement &statement, const HistoryQuestion &question) {
    statement.bind(1, question.compound).bind(2, question.system);
    if (question.run) {
        statement.bind(3, *question.run);
    } else {
        statement.bind_null(3);
    }
}

/// One count of rows of each change that is listed.
struct Count {
    std::int64_t HistoryEntry::*number;
    const char *sql; ///< change and count
};

/// ?4: JSON array of the changes.
#define LISTED "IN (SELECT value FROM json_each(?4)) "
#define EACH "GROUP BY change_id"

constexpr Count kCounts[]{
    {&HistoryEntry::values, "SELECT change_id, count(*) FROM measurement WHERE change_id " LISTED
                            "AND " OF_ALL_THREE " " EACH},
    {&HistoryEntry::withdrawn,
     "SELECT retired_change_id, count(*) FROM measurement WHERE retired_change_id " LISTED
     "AND " OF_ALL_THREE " GROUP BY retired_change_id"},
    {&HistoryEntry::corrected,
     "SELECT n.change_id, count(*) FROM measurement AS m JOIN measurement AS n ON n.id = "
     "m.superseded_by WHERE n.change_id " LISTED "AND (?1 IS NULL OR n.compound_id = ?1) AND (?2 "
     "IS NULL OR n.system_id = ?2) AND (?3 IS NULL OR "
     "n.run_id IN (SELECT id FROM run WHERE name = ?3)) GROUP BY n.change_id"},
    {&HistoryEntry::compounds,
     "SELECT change_id, count(*) FROM compound WHERE change_id " LISTED EACH},
    {&HistoryEntry::names, "SELECT change_id, count(*) FROM synonym WHERE change_id " LISTED EACH},
    {&HistoryEntry::structures,
     "SELECT change_id, count(*) FROM former_structure WHERE change_id " LISTED EACH},
    {&HistoryEntry::systems, "SELECT change_id, count(*) FROM system WHERE change_id " LISTED EACH},
    {&HistoryEntry::responses,
     "SELECT change_id, count(*) FROM response WHERE change_id " LISTED EACH},
    {&HistoryEntry::bands,
     "SELECT change_id, count(*) FROM column_band WHERE change_id " LISTED EACH},
    {&HistoryEntry::proofs,
     "SELECT change_id, count(*) FROM proved_question WHERE change_id " LISTED EACH}};

HistoryEntry read_entry(const Statement &row) {
    HistoryEntry entry;
    entry.id = row.id<ChangeId>(0);
    entry.change = {row.text(1), row.text(2), row.text(3)};
    entry.action = row.text(4);
    entry.command = row.text(5);
    return entry;
}

History newest_changes(Database &database, const HistoryQuestion &question) {
    Statement query = database.prepare(kChangesInQuestion);
    bind_question(query, question);
    query.bind(4, static_cast<std::int64_t>(question.top));
    History history;
    std::size_t all = 0;
    while (query.step()) {
        history.entries.push_back(read_entry(query));
        all = static_cast<std::size_t>(query.integer(6));
    }
    history.more = all - history.entries.size();
    return history;
}

#define OF_QUESTION                                                                                \
    "(?1 IS NULL OR m.compound_id = ?1) AND (?2 IS NULL OR m.system_id = ?2) AND (?3 IS NULL OR "  \
    "r.name = ?3) ORDER BY m.id"
#define CHANGED_VALUE                                                                              \
    " c.name, s.name, m.quantity, r.name, m.value, n.value FROM measurement AS m "                 \
    "JOIN compound AS c ON c.id = m.compound_id JOIN system AS s ON s.id = m.system_id "           \
    "JOIN run AS r ON r.id = m.run_id LEFT JOIN measurement AS n ON n.id = m.superseded_by "

/// Values before and after a correction, and those that were withdrawn.
constexpr const char *kChangedValues[]{"SELECT n.change_id," CHANGED_VALUE
                                       "WHERE n.change_id " LISTED "AND " OF_QUESTION,
                                       "SELECT m.retired_change_id," CHANGED_VALUE
                                       "WHERE m.retired_change_id " LISTED "AND " OF_QUESTION};

void read_changed_values(Database &database, const HistoryQuestion &question,
                         const std::string &listed, std::map<ChangeId, HistoryEntry *> &by_id) {
    for (const char *sql : kChangedValues) {
        Statement query = database.prepare(sql);
        bind_question(query, question);
        query.bind(4, listed);
        while (query.step()) {
            std::vector<ChangedValue> &changed = by_id.at(query.id<ChangeId>(0))->changed;
            if (changed.size() < kMostChangedValues) {
                changed.push_back({query.text(1), query.text(2),
                                   quantity_from_text(query.text(3)).value(), query.text(4),
                                   query.real(5), query.optional_real(6)});
            }
        }
    }
}

void count_rows(Database &database, const HistoryQuestion &question,
                std::vector<HistoryEntry> &entries) {
    std::map<ChangeId, HistoryEntry *> by_id;
    std::vector<ChangeId> ids;
    for (HistoryEntry &entry : entries) {
        by_id[entry.id] = &entry;
        ids.push_back(entry.id);
    }
    const std::string listed = fmt::format("[{}]", fmt::join(ids, ","));
    for (const Count &count : kCounts) {
        Statement query = database.prepare(count.sql);
        bind_question(query, question);
        query.bind(4, listed);
        while (query.step()) {
            by_id.at(query.id<ChangeId>(0))->*count.number = query.integer(1);
        }
    }
    read_changed_values(database, question, listed, by_id);
}

} // namespace

History history_of(Database &database, const HistoryQuestion &question) {
    History history = newest_changes(database, question);
    count_rows(database, question, history.entries);
    return history;
}

bool is_run(Database &database, const std::string &run) {
    Statement query = database.prepare("SELECT 1 FROM run WHERE name = ?1");
    return query.bind(1, run).step();
}

} // namespace cospot::library
