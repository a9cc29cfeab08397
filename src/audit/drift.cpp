#include "audit/drift.h"

#include "audit/audit_scale.h"
#include "audit/date_shifts.h"
#include "audit/odd_standard.h"
#include "audit/robust.h"
#include "audit/trend.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <span>

namespace cospot {

namespace {

constexpr std::size_t kFewestDates = 5;
constexpr std::size_t kFewestForTrend = 8;
constexpr double kTrendLevel = 0.01;
constexpr double kLeastGapDays = 60.0;
constexpr double kManyGaps = 5.0;
constexpr double kFinestShare = 0.1;
constexpr double kHarmlessShare = 0.5;
constexpr std::size_t kMostLevels = 8;

/// What is usual on the system.
struct Usual {
    double standard = 0.0;  // standard deviation of one standard about the shift of its date
    double noise = 0.0;     // standard deviation of a shift, from dates that follow each other
    double centre = 0.0;    // of the shifts of all dates
    double deviation = 0.0; // of the shifts of all dates
    double scatter = 0.0;   // of standards on one date
    double scatter_deviation = 0.0;
    double harmless = 0.0; // shift or scatter that does not matter
    double gap_days = 0.0; // longer gaps part stretches
};

struct OutlyingDate {
    double shift_score = 0.0;
    double scatter_score = 0.0;
    std::optional<std::size_t> odd; // the standard that moved alone, where one did
    [[nodiscard]] bool is_outlying() const { return shift_score > 0.0 || scatter_score > 0.0; }
};

double spread_about(const std::vector<double> &values, double centre, double floor) {
    std::vector<double> deviations;
    deviations.reserve(values.size());
    for (const double value : values) {
        deviations.push_back(value - centre);
    }
    return std::max(floor, robust_deviation(std::move(deviations)));
}

Usual usual_on(const ControlSeries &series, double assumed) {
    const std::vector<DateShift> &dates = series.dates;
    const double floor = kFinestShare * assumed;
    std::vector<double> shifts;
    std::vector<double> jumps;
    std::vector<double> gaps;
    std::vector<double> scatters;
    for (std::size_t i = 0; i < dates.size(); ++i) {
        shifts.push_back(dates[i].shift);
        if (dates[i].scatter) {
            scatters.push_back(*dates[i].scatter);
        }
        if (i > 0) {
            jumps.push_back(dates[i].shift - dates[i - 1].shift);
            gaps.push_back(dates[i].day - dates[i - 1].day);
        }
    }
    Usual usual;
    usual.standard = series.standard_deviation;
    usual.noise = std::max(floor, robust_deviation(std::move(jumps)) / std::numbers::sqrt2);
    usual.centre = median(shifts);
    usual.deviation = spread_about(shifts, usual.centre, floor);
    if (scatters.size() >= kFewestDates) {
        usual.scatter = median(scatters);
        usual.scatter_deviation = spread_about(scatters, usual.scatter, floor);
    }
    usual.harmless = kHarmlessShare * assumed;
    usual.gap_days = std::max(kLeastGapDays, kManyGaps * median(std::move(gaps)));
    return usual;
}

using Stretch = std::span<const DateShift>;

std::vector<Stretch> stretches(const std::vector<DateShift> &dates, const Usual &usual) {
    std::vector<Stretch> result;
    std::size_t first = 0;
    for (std::size_t i = 1; i <= dates.size(); ++i) {
        if (i == dates.size() || dates[i].day - dates[i - 1].day > usual.gap_days ||
            std::abs(dates[i].shift - dates[i - 1].shift) >
                kOutlyingScore * std::numbers::sqrt2 * usual.noise) {
            result.push_back(Stretch(dates).subspan(first, i - first));
            first = i;
        }
    }
    return result;
}

double median_shift(Stretch stretch) {
    std::vector<double> shifts;
    for (const DateShift &date : stretch) {
        shifts.push_back(date.shift);
    }
    return median(std::move(shifts));
}

/// The scale for a shift that rests on so many values of standards: `scale` of all shifts, and what
/// chance adds to a median of few (its standard error is 1.2533 s / sqrt(n) for normal scatter).
double scale_with_chance(double scale, std::size_t standards, const Usual &usual) {
    return std::hypot(scale, 1.2533 * usual.standard / std::sqrt(static_cast<double>(standards)));
}

/// How far the level of the stretch is from that of the other dates, in units of the noise; 0 where
/// it is the usual level itself (most dates) or the distance is harmless.
double level_score(Stretch stretch, const std::vector<DateShift> &dates, const Usual &usual) {
    std::vector<double> others;
    for (const DateShift &date : dates) {
        if (&date < stretch.data() || &date >= stretch.data() + stretch.size()) {
            others.push_back(date.shift);
        }
    }
    if (others.size() < stretch.size()) {
        return 0.0;
    }
    const double distance = std::abs(median_shift(stretch) - median(std::move(others)));
    std::size_t standards = 0;
    for (const DateShift &date : stretch) {
        standards += date.standards;
    }
    return distance > usual.harmless ? distance / scale_with_chance(usual.noise, standards, usual)
                                     : 0.0;
}

/// Scores of the dates by the level of their stretch; 0 where that is usual.
std::vector<double> level_scores(const std::vector<DateShift> &dates, const Usual &usual) {
    std::vector<double> scores;
    for (const Stretch stretch : stretches(dates, usual)) {
        const double score = level_score(stretch, dates, usual);
        scores.insert(scores.end(), stretch.size(), score > kOutlyingScore ? score : 0.0);
    }
    return scores;
}

/// Most dates stand out from the others: the system has no usual level.
bool has_no_level(const std::vector<double> &scores) {
    const auto outlying =
        std::count_if(scores.begin(), scores.end(), [](double s) { return s > 0; });
    return 2 * static_cast<std::size_t>(outlying) > scores.size();
}

std::vector<OutlyingDate> judge_dates(const std::vector<DateShift> &dates, const Usual &usual,
                                      const std::vector<double> &levels) {
    std::vector<OutlyingDate> judged;
    for (std::size_t i = 0; i < dates.size(); ++i) {
        const double distance = std::abs(dates[i].shift - usual.centre);
        const double scale = scale_with_chance(usual.deviation, dates[i].standards, usual);
        const double own = distance > usual.harmless ? distance / scale : 0.0;
        OutlyingDate outlying;
        outlying.shift_score = std::max(levels[i], own > kOutlyingScore ? own : 0.0);
        if (dates[i].scatter && usual.scatter_deviation > 0.0) {
            const double excess = *dates[i].scatter - usual.scatter;
            const double score = excess > usual.harmless ? excess / usual.scatter_deviation : 0.0;
            outlying.scatter_score = score > kOutlyingScore ? score : 0.0;
        }
        if (outlying.is_outlying()) {
            outlying.odd =
                odd_standard(dates[i], usual.centre, std::numbers::sqrt2 * usual.standard);
        }
        judged.push_back(outlying);
    }
    return judged;
}

std::string model_unit(Quantity quantity) {
    switch (quantity) {
    case Quantity::Rf:
        return "R_F near 0.5";
    case Quantity::k:
        return "log10 k";
    case Quantity::RI:
        return "index units";
    case Quantity::RRT:
        return "log10 RRT";
    case Quantity::r:
        return "log10 r";
    case Quantity::tR:
        break;
    }
    return "min";
}

std::string change_text(Quantity quantity, double change) {
    return fmt::format("{:+.2g} {}", change, model_unit(quantity));
}

/// The shifts of the dates, from the lowest to the highest.
std::string shifts_text(Quantity quantity, Stretch dates, double centre) {
    const auto [lowest, highest] =
        std::minmax_element(dates.begin(), dates.end(), [](const DateShift &a, const DateShift &b) {
            return a.shift < b.shift;
        });
    const std::string low = fmt::format("{:+.2g}", lowest->shift - centre);
    const std::string high = fmt::format("{:+.2g}", highest->shift - centre);
    return fmt::format("{} {}", low == high ? low : low + " to " + high, model_unit(quantity));
}

std::string period_text(Stretch dates) {
    return dates.size() == 1 ? "On " + dates.front().date
                             : fmt::format("From {} to {} ({} dates)", dates.front().date,
                                           dates.back().date, dates.size());
}

void add_rows(Finding &finding, Stretch dates, bool is_suspect = true) {
    for (const DateShift &date : dates) {
        for (const library::MeasurementId measurement : date.measurements) {
            finding.rows.push_back({measurement, is_suspect});
        }
    }
}

std::string possible_causes(Technique technique) {
    return can_show(technique, Quantity::Rf)
               ? "Look for another plate lot, another eluent, or a tank or a humidity that was not "
                 "as usual."
               : "Look for a leak, another column, or a ladder of another day.";
}

Finding outlying_period(const AuditedSystem &system, Stretch dates,
                        std::span<const OutlyingDate> judged, const Usual &usual) {
    double shift_score = 0.0;
    double scatter_score = 0.0;
    double scatter = 0.0;
    for (std::size_t i = 0; i < dates.size(); ++i) {
        shift_score = std::max(shift_score, judged[i].shift_score);
        if (judged[i].scatter_score > scatter_score) {
            scatter_score = judged[i].scatter_score;
            scatter = *dates[i].scatter;
        }
    }
    std::string what;
    if (shift_score > 0.0) {
        what = fmt::format("are shifted together by {} (robust score {:.1f}, limit {:.1f})",
                           shifts_text(system.quantity, dates, usual.centre), shift_score,
                           kOutlyingScore);
    }
    if (scatter_score > 0.0) {
        what += fmt::format("{}scatter by up to {:.2g} {} against each other, usually {:.2g} "
                            "(robust score {:.1f}, limit {:.1f})",
                            what.empty() ? "" : " and ", scatter, model_unit(system.quantity),
                            usual.scatter, scatter_score, kOutlyingScore);
    }
    Finding finding{.kind = FindingKind::drift,
                    .subject = system.name,
                    .text = fmt::format("{} the control standards {}.", period_text(dates), what),
                    .advice = possible_causes(system.technique) +
                              " Retire the values of this time if something was wrong; where "
                              "the system was changed, describe it as a system of its own."};
    add_rows(finding, dates);
    return finding;
}

/// One finding for all steps; its rows are the first date of each stretch.
Finding unsteady_level(const AuditedSystem &system, const std::vector<DateShift> &dates,
                       const Usual &usual) {
    const std::vector<Stretch> parts = stretches(dates, usual);
    std::string levels;
    Finding finding{.kind = FindingKind::drift,
                    .subject = system.name,
                    .text = "",
                    .advice = fmt::format("Correct by control standards, or describe the system "
                                          "anew each time it was changed ({}).",
                                          can_show(system.technique, Quantity::Rf)
                                              ? "plate lot, eluent"
                                              : "column, instrument")};
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i < kMostLevels) {
            levels += fmt::format("{}{:+.2g} from {}", levels.empty() ? "" : ", ",
                                  median_shift(parts[i]) - usual.centre, parts[i].front().date);
        }
        add_rows(finding, parts[i].first(1), false);
    }
    levels += parts.size() > kMostLevels ? ", ..." : "";
    finding.text = fmt::format("The control standards have no usual level: over {} dates it "
                               "differs by more than {:.1f} robust standard deviations between "
                               "stretches ({} in {}).",
                               dates.size(), kOutlyingScore, levels, model_unit(system.quantity));
    return finding;
}

void add_trend(const AuditedSystem &system, Stretch dates, const Usual &usual,
               std::vector<Finding> &findings) {
    if (dates.size() < kFewestForTrend) {
        return;
    }
    std::vector<SeriesPoint> points;
    for (const DateShift &date : dates) {
        points.push_back({static_cast<double>(date.day), date.shift});
    }
    const Trend trend = monotone_trend(points);
    const double change = trend.slope_per_day * (dates.back().day - dates.front().day);
    if (trend.p_value >= kTrendLevel ||
        std::abs(change) <= std::max(usual.harmless, kOutlyingScore * usual.noise)) {
        return;
    }
    Finding finding{
        .kind = FindingKind::drift,
        .subject = system.name,
        .text =
            fmt::format("{} the control standards drift by {} (Theil-Sen line; Mann-Kendall "
                        "test, p = {:.1g}).",
                        period_text(dates), change_text(system.quantity, change), trend.p_value),
        .advice = fmt::format("Run control standards with the samples and correct by them, renew "
                              "the {}, or split the system in time.",
                              can_show(system.technique, Quantity::Rf) ? "eluent or the plates"
                                                                       : "column")};
    add_rows(finding, dates);
    findings.push_back(std::move(finding));
}

} // namespace

std::vector<Finding> drift_findings(const AuditedSystem &system) {
    std::vector<Finding> findings;
    const ControlSeries series = control_series(system);
    const std::vector<DateShift> &dates = series.dates;
    if (dates.size() < kFewestDates) {
        return findings;
    }
    const Usual usual = usual_on(series, assumed_spread_on(system));
    std::vector<double> levels = level_scores(dates, usual);
    if (has_no_level(levels)) {
        findings.push_back(unsteady_level(system, dates, usual));
        levels.assign(dates.size(), 0.0);
    }
    const std::vector<OutlyingDate> judged = judge_dates(dates, usual, levels);
    for (std::size_t first = 0; first < dates.size(); ++first) {
        std::size_t end = first;
        while (end < dates.size() && judged[end].is_outlying() &&
               judged[end].odd == judged[first].odd) {
            ++end;
        }
        if (end > first) {
            const Stretch period = Stretch(dates).subspan(first, end - first);
            const std::optional<std::size_t> odd = judged[first].odd;
            findings.push_back(odd ? odd_standard_finding(system, period, *odd, period_text(period),
                                                          model_unit(system.quantity))
                                   : outlying_period(system, period,
                                                     std::span(judged).subspan(first, end - first),
                                                     usual));
            first = end - 1;
        }
    }
    const std::vector<Stretch> parts = stretches(dates, usual);
    for (const Stretch stretch : parts) {
        add_trend(system, stretch, usual, findings);
    }
    if (parts.size() > 1) {
        add_trend(system, dates, usual, findings);
    }
    return findings;
}

} // namespace cospot
