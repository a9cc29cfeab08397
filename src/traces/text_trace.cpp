#include "traces/text_trace.h"

#include "shared/column_unit.h"
#include "shared/robust.h"
#include "shared/text.h"
#include "traces/number_run.h"
#include "traces/time_unit.h"
#include "traces/trace_points.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <sstream>
#include <utility>

namespace cospot {

namespace {

/// Columns of the program's tables that may be all numbers, without their units.
bool is_column_of_a_table(const std::string &heading) {
    constexpr std::array<std::string_view, 22> columns{
        "peak", "tr",    "area",     "height", "width_half", "symmetry", "lane",     "label",
        "spot", "front", "distance", "track",  "compound",   "feature",  "fraction", "run",
        "r_f",  "rf",    "tube",     "ppm",    "purity",     "amount"};
    const std::string name = lower_ascii(divided_heading(split_unit(heading).name).name);
    return std::find(columns.begin(), columns.end(), name) != columns.end();
}

/// 1, 2, 3 and so on: rows that are numbered.
bool is_counting(const std::vector<double> &column) {
    for (std::size_t i = 1; i < column.size(); ++i) {
        if (column[i] != column[i - 1] + 1.0) {
            return false;
        }
    }
    return true;
}

bool is_rising(const std::vector<double> &column) {
    return std::adjacent_find(column.begin(), column.end(), std::greater_equal<>()) == column.end();
}

/// Whether times never fall and most of their steps are of like size.
bool is_sampled_evenly(const std::vector<double> &times) {
    std::vector<double> steps;
    for (std::size_t i = 1; i < times.size(); ++i) {
        steps.push_back(times[i] - times[i - 1]);
        if (steps.back() < 0.0) {
            return false;
        }
    }
    const double median = upper_median(steps);
    const auto alike = std::count_if(steps.begin(), steps.end(), [&](double step) {
        return step >= 0.5 * median && step <= 2.0 * median;
    });
    constexpr double most = 0.8;
    return median > 0.0 && static_cast<double>(alike) >= most * static_cast<double>(steps.size());
}

/// What the heading of a column says; a name for one without.
Heading heading_of(const NumberRun &run, std::size_t column) {
    if (run.names.empty()) {
        return {run.columns.size() == 2 ? "signal" : fmt::format("column {}", column + 1), ""};
    }
    Heading heading = divided_heading(run.names[column]);
    if (!run.units.empty()) {
        const std::string &unit = run.units[column];
        const Heading in_brackets = divided_heading(unit);
        heading.unit = in_brackets.unit.empty() ? unit : in_brackets.unit;
    }
    return heading;
}

double minutes_of_run(const NumberRun &run, const TraceOptions &options, const Where &where) {
    std::string unit;
    if (!run.names.empty()) {
        const std::size_t at = run.time_column;
        unit = time_unit_of(run.units.empty() ? run.names[at] : run.units[at]);
        unit = unit.empty() ? time_unit_of(run.names[at]) : unit;
    }
    return minutes_per_unit(unit, options, where);
}

void throw_faults(const NumberRuns &runs, const std::string &file) {
    if (runs.longest.rows() < kFewestRows) {
        if (runs.unreadable) {
            throw InputError(*runs.unreadable);
        }
        throw InputError({file, 1, ""}, "no trace",
                         fmt::format("at least {} rows of a time and a signal", kFewestRows));
    }
    for (const auto &fault : {runs.broken, runs.longest.fault}) {
        if (fault) {
            throw InputError(*fault);
        }
    }
}

} // namespace

bool looks_like_text_trace(std::string_view first_bytes) {
    constexpr std::size_t fewest = 50;
    const std::size_t end = first_bytes.rfind('\n');
    std::istringstream in(std::string(first_bytes.substr(0, end))); // the last line may be cut off
    try {
        const NumberRun run = number_runs(in, "").longest;
        if (run.rows() < fewest ||
            std::any_of(run.above.begin(), run.above.end(), is_column_of_a_table)) {
            return false;
        }
        const std::vector<double> &times = run.columns[run.time_column];
        const bool is_numbered = is_counting(run.columns[0]) && is_rising(run.columns[1]);
        return is_sampled_evenly(times) && !(run.time_column == 0 && is_numbered);
    } catch (const InputError &) {
        return false;
    }
}

TraceFile read_text_trace(std::istream &in, const std::string &file, const TraceOptions &options) {
    NumberRuns runs = number_runs(in, file);
    throw_faults(runs, file);
    NumberRun &run = runs.longest;
    const Where where{file, run.first_line, ""};
    const double minutes = minutes_of_run(run, options, where);
    TraceFile result{.file = file, .format = "text"};
    std::vector<double> times = std::move(run.columns[run.time_column]);
    for (double &time : times) {
        time *= minutes;
    }
    for (std::size_t i = 0; i < run.columns.size(); ++i) {
        const bool is_row_number = i < run.time_column && is_counting(run.columns[i]);
        if (i == run.time_column || is_row_number) {
            continue;
        }
        const Heading heading = heading_of(run, i);
        add_trace(result,
                  {.name = heading.name,
                   .signal_unit = heading.unit,
                   .time_min = times,
                   .signal = std::move(run.columns[i])},
                  where);
    }
    if (result.traces.empty()) {
        throw InputError(where, "times without a signal", "a column of signals beside the times");
    }
    if (runs.other_rows > 0) {
        result.notes.push_back(fmt::format(
            "the trace is read from lines {} to {}; {} of numbers elsewhere in the file left out",
            run.first_line, run.last_line, counted(runs.other_rows, "row")));
    }
    return result;
}

} // namespace cospot
