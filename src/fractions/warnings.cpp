#include "fractions/warnings.h"

#include <algorithm>
#include <cmath>

namespace cospot::fractions {

namespace {

constexpr double kDriftTolerances = 2.0;
constexpr double kPlateEdgeTolerances = 3.0;

int first_number(const ColumnRun &run, std::size_t component) {
    return run.fractions[run.components[component].spots.front().fraction].number;
}

int last_number(const ColumnRun &run, std::size_t component) {
    return run.fractions[run.components[component].spots.back().fraction].number;
}

FractionRange range_of(const ColumnRun &run, std::size_t component) {
    return {first_number(run, component), last_number(run, component)};
}

/// Whether `far`, which has the higher R_F, leaves after `near` all the same.
bool contradicts(const ColumnRun &run, std::size_t far, std::size_t near) {
    const FractionRange a = range_of(run, far);
    const FractionRange b = range_of(run, near);
    return a.first >= b.first && a.last >= b.last && a != b;
}

/// Whether a component ends with the last fraction of one plate and the other begins with the first
/// of a plate that shares no fraction with it.
bool meet_at_plate_edge(const ColumnRun &run, const Component &ending, const Component &beginning) {
    const std::size_t last = ending.spots.back().fraction;
    if (beginning.spots.front().fraction != last + 1) {
        return false;
    }
    const auto &before = run.fractions[last].plates;
    const auto &after = run.fractions[last + 1].plates;
    return std::none_of(after.begin(), after.end(), [&](const std::string &plate) {
        return std::find(before.begin(), before.end(), plate) != before.end();
    });
}

void add_single(const ColumnRun &run, const Pooling &pooling, double tolerance, std::size_t index,
                std::vector<Warning> &warnings) {
    const ComponentPool &pool = pooling.components[index];
    if (!pool.not_seen.empty()) {
        warnings.push_back({WarningKind::gap, {index}, pool.not_seen});
    }
    if (!pool.missed.empty()) {
        warnings.push_back({WarningKind::missed, {index}, ranges_of(pool.missed)});
    }
    const Component &component = run.components[index];
    if (!component.rf) {
        return;
    }
    const auto [least, most] = std::minmax_element(
        component.spots.begin(), component.spots.end(),
        [](const BandSpot &a, const BandSpot &b) { return a.rf.value() < b.rf.value(); });
    if (most->rf.value() - least->rf.value() > kDriftTolerances * tolerance) {
        warnings.push_back({WarningKind::drift, {index}, {range_of(run, index)}});
    }
    if (*component.rf <= 0.0) {
        warnings.push_back({WarningKind::at_start, {index}, {range_of(run, index)}});
    } else if (*component.rf >= 1.0) {
        warnings.push_back({WarningKind::at_front, {index}, {range_of(run, index)}});
    }
}

/// About two components with an R_F each, `a` leaving before `b` on the whole.
void add_pair(const ColumnRun &run, double tolerance, ElutionOrder order, std::size_t a,
              std::size_t b, std::vector<Warning> &warnings) {
    const Component &early = run.components[a];
    const Component &late = run.components[b];
    const double ahead = *early.rf - *late.rf;
    const double step = std::abs(early.spots.back().rf.value() - late.spots.front().rf.value());
    if (step <= kPlateEdgeTolerances * tolerance && meet_at_plate_edge(run, early, late)) {
        warnings.push_back({WarningKind::plate_edge,
                            {a, b},
                            {{last_number(run, a), last_number(run, a)},
                             {first_number(run, b), first_number(run, b)}}});
    } else if (std::abs(ahead) <= tolerance && last_number(run, a) < first_number(run, b)) {
        warnings.push_back({WarningKind::seen_again, {b, a}, {range_of(run, b), range_of(run, a)}});
    } else if (order == ElutionOrder::by_rf && std::abs(ahead) > tolerance) {
        const std::size_t far = ahead > 0.0 ? a : b;
        const std::size_t near = ahead > 0.0 ? b : a;
        if (contradicts(run, far, near)) {
            warnings.push_back(
                {WarningKind::order, {near, far}, {range_of(run, near), range_of(run, far)}});
        }
    }
}

} // namespace

std::string_view to_text(WarningKind kind) {
    switch (kind) {
    case WarningKind::order:
        return "order";
    case WarningKind::gap:
        return "gap";
    case WarningKind::missed:
        return "missed";
    case WarningKind::drift:
        return "drift";
    case WarningKind::plate_edge:
        return "plate_edge";
    case WarningKind::seen_again:
        return "seen_again";
    case WarningKind::at_start:
        return "at_start";
    case WarningKind::at_front:
        return "at_front";
    case WarningKind::shoulder:
        return "shoulder";
    }
    return "";
}

std::vector<Warning> find_warnings(const ColumnRun &run, const Pooling &pooling, double tolerance,
                                   ElutionOrder order) {
    std::vector<Warning> warnings;
    for (std::size_t i = 0; i < run.components.size(); ++i) {
        add_single(run, pooling, tolerance, i, warnings);
    }
    for (std::size_t a = 0; a < run.components.size(); ++a) {
        for (std::size_t b = a + 1; b < run.components.size(); ++b) {
            if (run.components[a].rf && run.components[b].rf) {
                add_pair(run, tolerance, order, a, b, warnings);
            }
        }
    }
    return warnings;
}

} // namespace cospot::fractions
