#include "distil/recovery.h"

#include <algorithm>
#include <map>

namespace cospot::distillation {

namespace {

/// Cumulative area at a temperature; two points where it jumps.
struct CumulativePoint {
    double celsius = 0.0;
    double area = 0.0;
};

/// What changes at a temperature.
struct Change {
    double rate = 0.0; ///< of area per degree
    double jump = 0.0; ///< area that boils at this temperature alone
};

std::vector<CumulativePoint> cumulative(const std::vector<BoilingArea> &areas) {
    std::map<double, Change> changes;
    for (const BoilingArea &area : areas) {
        if (area.to_celsius > area.from_celsius) {
            const double rate = area.area / (area.to_celsius - area.from_celsius);
            changes[area.from_celsius].rate += rate;
            changes[area.to_celsius].rate -= rate;
        } else {
            changes[area.from_celsius].jump += area.area;
        }
    }
    std::vector<CumulativePoint> points;
    double area = 0.0;
    double rate = 0.0;
    for (const auto &[celsius, change] : changes) {
        if (!points.empty()) {
            area += std::max(rate, 0.0) * (celsius - points.back().celsius); // never below 0
        }
        points.push_back({celsius, area});
        area += change.jump;
        points.push_back({celsius, area});
        rate += change.rate;
    }
    return points;
}

double temperature_at(const std::vector<CumulativePoint> &points, double area) {
    const auto upper = std::lower_bound(
        points.begin(), points.end(), area,
        [](const CumulativePoint &point, double wanted) { return point.area < wanted; });
    if (upper == points.begin()) {
        return points.front().celsius;
    }
    if (upper == points.end()) { // by rounding
        return points.back().celsius;
    }
    const auto lower = upper - 1;
    const double share = (area - lower->area) / (upper->area - lower->area);
    return lower->celsius + share * (upper->celsius - lower->celsius);
}

} // namespace

const std::vector<double> &stated_percentages() {
    static const std::vector<double> percentages = [] {
        std::vector<double> all{0.5};
        for (double per_cent = 5.0; per_cent <= 95.0; per_cent += 5.0) {
            all.push_back(per_cent);
        }
        all.push_back(99.5);
        return all;
    }();
    return percentages;
}

std::vector<Recovered> recovery_table(const std::vector<BoilingArea> &areas,
                                      const UnplacedArea &unplaced) {
    const std::vector<CumulativePoint> points = cumulative(areas);
    const double placed = points.back().area;
    const double total = unplaced.before + placed + unplaced.behind;
    std::vector<Recovered> table;
    for (const double per_cent : stated_percentages()) {
        const double area = per_cent / 100.0 * total - unplaced.before;
        Recovered row{per_cent, Recovered::Place::inside, std::nullopt};
        if (area < 0.0) {
            row.place = Recovered::Place::below_scale;
        } else if (area > placed && unplaced.behind > 0.0) {
            row.place = Recovered::Place::above_scale;
        } else {
            row.celsius = temperature_at(points, area);
        }
        table.push_back(row);
    }
    return table;
}

std::vector<BoilingArea> spread_between_apexes(const std::vector<BoilingArea> &apexes) {
    std::vector<BoilingArea> areas;
    for (std::size_t i = 0; i < apexes.size(); ++i) {
        const double here = apexes[i].from_celsius;
        const double below = i > 0 ? apexes[i - 1].from_celsius : here;
        const double above = i + 1 < apexes.size() ? apexes[i + 1].from_celsius : here;
        areas.push_back({below, here, apexes[i].area / 2.0});
        areas.push_back({here, above, apexes[i].area / 2.0});
    }
    return areas;
}

} // namespace cospot::distillation
