#include "audit/date_shifts.h"

#include "audit/audit_scale.h"
#include "audit/robust.h"
#include "shared/number.h"

#include <chrono>
#include <cmath>
#include <map>

namespace cospot {

namespace {

constexpr std::size_t kFewestControlDates = 3; // of a control standard
constexpr std::size_t kFewestForScatter = 4;
constexpr int kPolishRounds = 10; // median polish settles in a few

struct CompoundOnDate {
    std::size_t compound = 0;
    std::size_t date = 0;
    double value = 0.0; // median, model scale
};

struct ControlTable {
    std::vector<DateShift> dates;
    std::vector<CompoundOnDate> cells;
    std::vector<std::size_t> compounds; // positions in the system
};

/// The values of a compound by date.
std::map<std::string, std::vector<const AuditedValue *>> by_date(const AuditedCompound &compound) {
    std::map<std::string, std::vector<const AuditedValue *>> result;
    for (const AuditedValue &value : compound.values) {
        if (day_number(value.date)) {
            result[value.date].push_back(&value);
        }
    }
    return result;
}

/// Numbers the dates on which control standards were measured, in their order.
ControlTable control_table(const AuditedSystem &system) {
    std::map<std::pair<int, std::string>, std::vector<CompoundOnDate>> cells;
    std::map<std::string, std::vector<library::MeasurementId>> measurements;
    ControlTable table;
    for (std::size_t position = 0; position < system.compounds.size(); ++position) {
        const AuditedCompound &compound = system.compounds[position];
        const auto dates = by_date(compound);
        if (dates.size() < kFewestControlDates) {
            continue;
        }
        for (const auto &[date, values] : dates) {
            std::vector<double> scaled;
            for (const AuditedValue *value : values) {
                scaled.push_back(audit_scale(system.quantity, value->value));
                measurements[date].push_back(value->measurement);
            }
            cells[{day_number(date).value(), date}].push_back(
                {table.compounds.size(), 0, median(std::move(scaled))});
        }
        table.compounds.push_back(position);
    }
    for (auto &[when, of_date] : cells) {
        for (CompoundOnDate &cell : of_date) {
            cell.date = table.dates.size();
            table.cells.push_back(cell);
        }
        table.dates.push_back({.date = when.second,
                               .day = when.first,
                               .shift = 0.0,
                               .standards = 0,
                               .scatter = std::nullopt,
                               .deviations = {},
                               .measurements = std::move(measurements[when.second])});
    }
    return table;
}

/// What is left of each cell, gathered by date.
std::vector<std::vector<double>> residuals_by_date(const ControlTable &table,
                                                   const std::vector<double> &usual) {
    std::vector<std::vector<double>> residuals(table.dates.size());
    for (const CompoundOnDate &cell : table.cells) {
        residuals[cell.date].push_back(cell.value - usual[cell.compound] -
                                       table.dates[cell.date].shift);
    }
    return residuals;
}

std::vector<double> usual_values(const ControlTable &table) {
    std::vector<std::vector<double>> values(table.compounds.size());
    for (const CompoundOnDate &cell : table.cells) {
        values[cell.compound].push_back(cell.value - table.dates[cell.date].shift);
    }
    std::vector<double> usual;
    usual.reserve(values.size());
    for (std::vector<double> &of_compound : values) {
        usual.push_back(median(std::move(of_compound)));
    }
    return usual;
}

} // namespace

std::optional<int> day_number(std::string_view date) {
    if (date.size() != 7 && date.size() != 10) {
        return std::nullopt;
    }
    const auto part = [&](std::size_t from, std::size_t length) {
        return static_cast<unsigned>(number_from_text(date.substr(from, length)).value_or(0));
    };
    constexpr unsigned middle = 15;
    const std::chrono::year_month_day day{std::chrono::year{static_cast<int>(part(0, 4))},
                                          std::chrono::month{part(5, 2)},
                                          std::chrono::day{date.size() == 7 ? middle : part(8, 2)}};
    if (!day.ok()) {
        return std::nullopt;
    }
    return static_cast<int>(std::chrono::sys_days{day}.time_since_epoch().count());
}

ControlSeries control_series(const AuditedSystem &system) {
    ControlTable table = control_table(system);
    std::vector<double> usual;
    for (int round = 0; round < kPolishRounds; ++round) {
        usual = usual_values(table);
        const auto residuals = residuals_by_date(table, usual);
        for (std::size_t i = 0; i < table.dates.size(); ++i) {
            table.dates[i].shift += median(residuals[i]);
        }
    }
    for (const CompoundOnDate &cell : table.cells) {
        table.dates[cell.date].deviations.push_back(
            {table.compounds[cell.compound], cell.value - usual[cell.compound]});
    }
    std::vector<double> scaled;
    const auto residuals = residuals_by_date(table, usual);
    for (std::size_t i = 0; i < table.dates.size(); ++i) {
        const auto n = static_cast<double>(residuals[i].size());
        table.dates[i].standards = residuals[i].size();
        if (residuals[i].size() >= kFewestForScatter) {
            table.dates[i].scatter = robust_deviation(residuals[i]);
        }
        for (const double residual : residuals[i]) {
            if (n > 1) {
                scaled.push_back(residual * std::sqrt(n / (n - 1)));
            }
        }
    }
    return {std::move(table.dates), scaled.empty() ? 0.0 : robust_deviation(std::move(scaled))};
}

} // namespace cospot
