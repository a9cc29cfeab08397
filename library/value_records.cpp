#include "library/value_records.h"

#include "library/damage.h"
#include "library/selection_clause.h"

#include <fmt/format.h>

#include <string>
#include <string_view>

namespace cospot::library {

namespace {

constexpr std::string_view kRecord =
    "SELECT m.id, c.name, s.name, m.quantity, m.value, m.uncertainty, r.name, r.date, "
    "r.operator, r.instrument, m.source, m.note, m.superseded_by, m.retired_change_id, "
    "l.who, l.at_utc, l.detail, w.who, w.at_utc, w.detail";
constexpr std::string_view kValues =
    " FROM measurement AS m JOIN compound AS c ON c.id = m.compound_id "
    "JOIN system AS s ON s.id = m.system_id JOIN run AS r ON r.id = m.run_id ";
constexpr std::string_view kChanges =
    "JOIN change AS l ON l.id = m.change_id "
    "LEFT JOIN measurement AS n ON n.id = m.superseded_by "
    "LEFT JOIN change AS w ON w.id = ifnull(m.retired_change_id, n.change_id) ";
constexpr const char *kHeld = "m.superseded_by IS NULL AND m.retired_change_id IS NULL";

bool is_of_compound(const ValueQuestion &question) {
    return std::holds_alternative<CompoundId>(question.of);
}

/// Whose the values are, which of them, and what else narrows them.
Clause clause_of_question(Database &database, const ValueQuestion &question) {
    Clause clause;
    std::visit(
        [&](auto id) {
            clause.add(is_of_compound(question) ? "m.compound_id = ?" : "m.system_id = ?",
                       {as_number(id)});
        },
        question.of);
    if (question.which == Visit::held) {
        clause.add(kHeld, {});
    }
    narrow(clause, database, question.selection);
    return clause;
}

void read_state(const Statement &query, MeasurementRecord &record) {
    record.superseded_by = query.optional_id<MeasurementId>(12);
    if (!query.is_null(13)) {
        record.state = ValueState::retired;
    } else if (record.superseded_by) {
        record.state = ValueState::superseded;
    }
    record.learned = {query.text(14), query.text(15), query.text(16)};
    if (record.state != ValueState::held) {
        record.withdrawn = Change{query.text(17), query.text(18), query.text(19)};
    }
}

MeasurementRecord read_value(const Statement &query, const Database &database) {
    MeasurementRecord record;
    record.id = query.id<MeasurementId>(0);
    record.compound = query.text(1);
    record.system = query.text(2);
    record.quantity = sound(quantity_from_text(query.text(3)), database);
    record.value = query.real(4);
    record.uncertainty = query.optional_real(5);
    record.run = query.text(6);
    record.date = query.text(7);
    record.operator_name = query.text(8);
    record.instrument = query.text(9);
    record.source = query.text(10);
    record.note = query.text(11);
    read_state(query, record);
    return record;
}

} // namespace

void for_each_record(Database &database, const ValueQuestion &question,
                     const std::function<void(const MeasurementRecord &)> &visit) {
    const Clause clause = clause_of_question(database, question);
    Statement query =
        database.prepare(std::string(kRecord).append(kValues).append(kChanges) + "WHERE " +
                         clause.sql + " ORDER BY " + (is_of_compound(question) ? "s" : "c") +
                         ".name, m.quantity, r.date, r.name, m.id LIMIT ?");
    query.bind(clause.bind(query), question.top ? static_cast<std::int64_t>(*question.top) : -1);
    while (query.step()) {
        visit(read_value(query, database));
    }
}

RecordCounts count_records(Database &database, const ValueQuestion &question) {
    const Clause clause = clause_of_question(database, question);
    Statement query = database.prepare(fmt::format(
        "SELECT count(*), count(*) FILTER (WHERE {0}), count(DISTINCT {1}) FILTER "
        "(WHERE {0}){2}WHERE {3}",
        kHeld, is_of_compound(question) ? "m.system_id" : "m.compound_id", kValues, clause.sql));
    clause.bind(query);
    return query.step() ? RecordCounts{query.integer(0), query.integer(1), query.integer(2)}
                        : RecordCounts{};
}

} // namespace cospot::library
