#include "distil/distilled_sample.h"

#include "shared/error.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace cospot::distillation {

namespace {

using quantities::LadderPosition;

double area_of(const Peak &peak, const std::string &file) {
    if (!peak.area) {
        throw InputError({file, peak.line, "area"}, "a peak without area",
                         "the area of every peak");
    }
    return *peak.area;
}

void set_shares(DistilledSample &sample, const std::string &file) {
    double total = 0.0;
    for (const DistilledPeak &peak : sample.peaks) {
        total += peak.is_solvent ? 0.0 : peak.area;
    }
    if (total <= 0.0) {
        throw InputError({file, 0, "area"}, "no area",
                         "a peak with an area above 0 (besides the solvent)");
    }
    for (DistilledPeak &peak : sample.peaks) {
        if (peak.is_solvent) {
            continue;
        }
        peak.per_cent = 100.0 * peak.area / total;
        const LadderPosition position = peak.boiling.position;
        sample.before_per_cent += position == LadderPosition::before_first ? peak.per_cent : 0.0;
        sample.behind_per_cent += position == LadderPosition::after_last ? peak.per_cent : 0.0;
    }
}

/// The areas on the scale, by start and end of the peaks; nothing where one of them is not known or
/// lies outside the ladder.
std::optional<std::vector<BoilingArea>> areas_by_width(const DistilledSample &sample) {
    std::vector<BoilingArea> areas;
    for (const DistilledPeak &peak : sample.peaks) {
        if (peak.is_solvent || !peak.boiling.celsius) {
            continue;
        }
        if (!peak.start_min || !peak.end_min) {
            return std::nullopt;
        }
        const auto from = boiling_point_at(sample.scale, *peak.start_min).celsius;
        const auto to = boiling_point_at(sample.scale, *peak.end_min).celsius;
        if (!from || !to) {
            return std::nullopt;
        }
        areas.push_back({*from, *to, peak.area});
    }
    return areas;
}

std::vector<BoilingArea> areas_by_apex(const DistilledSample &sample) {
    std::vector<BoilingArea> apexes;
    for (const DistilledPeak &peak : sample.peaks) {
        if (!peak.is_solvent && peak.boiling.celsius) {
            apexes.push_back({*peak.boiling.celsius, *peak.boiling.celsius, peak.area});
        }
    }
    return spread_between_apexes(apexes);
}

/// What boils outside the scale, summed by area: shares of a tiny rest would be lost to rounding.
UnplacedArea unplaced_area(const DistilledSample &sample) {
    UnplacedArea unplaced;
    for (const DistilledPeak &peak : sample.peaks) {
        if (peak.is_solvent) {
            continue;
        }
        const LadderPosition position = peak.boiling.position;
        unplaced.before += position == LadderPosition::before_first ? peak.area : 0.0;
        unplaced.behind += position == LadderPosition::after_last ? peak.area : 0.0;
    }
    return unplaced;
}

void add_recovery(DistilledSample &sample) {
    const auto by_width = areas_by_width(sample);
    sample.uses_widths = by_width.has_value();
    const std::vector<BoilingArea> areas = by_width ? *by_width : areas_by_apex(sample);
    const bool has_area = std::any_of(areas.begin(), areas.end(),
                                      [](const BoilingArea &area) { return area.area > 0.0; });
    if (has_area) {
        sample.recovered = recovery_table(areas, unplaced_area(sample));
    }
}

} // namespace

DistilledSample distil(const std::string &file, const std::vector<Peak> &peaks,
                       const quantities::BoilingScale &scale,
                       std::optional<double> solvent_end_min) {
    DistilledSample sample;
    sample.name = std::filesystem::path(file).stem().string();
    sample.scale = scale;
    std::vector<const Peak *> in_order;
    in_order.reserve(peaks.size());
    for (const Peak &peak : peaks) {
        in_order.push_back(&peak);
    }
    std::stable_sort(in_order.begin(), in_order.end(), [](const Peak *a, const Peak *b) {
        return a->retention_time_min < b->retention_time_min;
    });
    for (const Peak *peak : in_order) {
        sample.peaks.push_back({peak->name, peak->retention_time_min, area_of(*peak, file), 0.0,
                                boiling_point_at(scale, peak->retention_time_min),
                                peak->retention_time_min <= solvent_end_min.value_or(0.0),
                                peak->start_min, peak->end_min, peak->height,
                                peak->width_half_min});
    }
    set_shares(sample, file);
    add_recovery(sample);
    return sample;
}

} // namespace cospot::distillation
