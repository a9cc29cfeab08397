#pragma once

#include "shared/table.h"

#include <map>
#include <string>
#include <vector>

namespace cospot {

/// The column "date", not after today; empty where nothing is stated. What is no date is a fault of
/// the row.
[[nodiscard]] std::string read_past_date(const TableReader &table);

/// A date that is given once holds for its run: rows without one get the first of their run.
/// `run_of` gives what tells the run of a row from others, or nothing for a row of no run.
template <class Row, class RunOf> void state_dates(std::vector<Row> &rows, const RunOf &run_of) {
    std::map<typename decltype(run_of(rows.front()))::value_type, std::string> dates;
    for (const Row &row : rows) {
        if (const auto run = run_of(row); run && !row.date.empty()) {
            dates.try_emplace(*run, row.date);
        }
    }
    for (Row &row : rows) {
        const auto run = run_of(row);
        const auto date = run ? dates.find(*run) : dates.end();
        if (row.date.empty() && date != dates.end()) {
            row.date = date->second;
        }
    }
}

} // namespace cospot
