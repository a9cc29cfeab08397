#pragma once

#include "audit/audited_system.h"
#include "library/ids.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// Day number of YYYY-MM-DD; of YYYY-MM its middle; empty for anything vaguer.
[[nodiscard]] std::optional<int> day_number(std::string_view date);

/// How far one control standard lies from its usual value on a date.
struct StandardOnDate {
    std::size_t compound = 0; ///< position among the compounds of the system
    double deviation = 0.0;   ///< model scale
};

/// How the control standards of one date stand against their usual values, on the model scale.
struct DateShift {
    std::string date;
    int day = 0;
    double shift = 0.0;            ///< of all standards together
    std::size_t standards = 0;     ///< measured on it
    std::optional<double> scatter; ///< of the standards about that shift; from four on
    std::vector<StandardOnDate> deviations;
    std::vector<library::MeasurementId> measurements;
};

/// The dates of a system in their order.
struct ControlSeries {
    std::vector<DateShift> dates;
    double standard_deviation = 0.0; ///< robust, of one standard about the shift of its date;
                                     ///< 0 where no date has two standards
};

/// Control standards are the compounds measured on at least three dates. Effects of compounds and
/// dates are told apart by median polish (tukey1977, from memory), so that it does not matter which
/// standards were run on which date, and a leak on some dates does not move the usual values.
[[nodiscard]] ControlSeries control_series(const AuditedSystem &system);

} // namespace cospot
