#pragma once

#include "audit/audited_system.h"
#include "audit/date_shifts.h"
#include "audit/finding.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>

namespace cospot {

/// The shift of a date with two control standards is the mean of both, so that one wrong value
/// looks like a shift of half its size. This finds the one that moved alone (its position among the
/// compounds of the system): the two differ by more than 3.5 times `scatter`, the robust standard
/// deviation of a difference, and one lies at least three times as far from `centre`, the usual
/// shift, as the other. Nothing on dates with another number of standards.
[[nodiscard]] std::optional<std::size_t> odd_standard(const DateShift &date, double centre,
                                                      double scatter);

/// The finding for dates that follow each other, on all of which that standard moved alone;
/// `period` and `unit` are words.
[[nodiscard]] Finding odd_standard_finding(const AuditedSystem &system,
                                           std::span<const DateShift> dates, std::size_t compound,
                                           const std::string &period, const std::string &unit);

} // namespace cospot
