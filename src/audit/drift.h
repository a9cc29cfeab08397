#pragma once

#include "audit/audited_system.h"
#include "audit/finding.h"

#include <vector>

namespace cospot {

/// Drift of a system as its control standards show it (see date_shifts.h), from five dates on.
///
/// Dates fall into stretches: a new one starts after a gap of over 60 days (or five usual gaps,
/// if longer) and where the shift jumps by over 3.5 robust standard deviations of the jumps from
/// date to date. A date is a finding when its scatter of standards, its shift against all dates, or
/// the level of its stretch against the other dates stands out by more than 3.5 robust standard
/// deviations (Iglewicz and Hoaglin, see robust.h); for a level this is the deviation of dates that
/// follow each other; where a shift rests on few standards their scatter is added. Shifts below
/// half of assumed_spread() are let pass: they hardly move an identification. Neighbouring dates
/// are one finding. Where most dates are on outlying levels, the system has no usual level, and
/// that is one finding instead.
///
/// On simulated systems without drift 0.1 to 1.2 % of the dates are flagged, more where there are
/// few dates (6 to 60). The lengths of gaps and the harmless shift are our own choice.
///
/// A trend is a finding when the Mann-Kendall test gives p < 0.01 and the Theil-Sen line changes by
/// more than 3.5 times the scatter from date to date over a stretch of eight or more dates, or over
/// all dates.
[[nodiscard]] std::vector<Finding> drift_findings(const AuditedSystem &system);

} // namespace cospot
