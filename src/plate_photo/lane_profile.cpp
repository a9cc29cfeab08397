#include "plate_photo/lane_profile.h"

#include "signal/peak_finder.h"

#include <algorithm>

namespace cospot::plate_photo {

namespace {

constexpr double kGapMm = 1.0; ///< width of what is looked at between lanes
constexpr double kNarrowestMm = 1.0;
constexpr double kBaselinePeriods = 3.0; ///< in lengths of the profile
constexpr double kLeastThreshold = 1.0;  ///< deviations of the lane's noise
constexpr std::size_t kLeastRows = 12;

double mean_across(const Field &signal, int row, double left_mm, double right_mm) {
    const int left = signal.column_at(left_mm);
    const int right = std::max(left, signal.column_at(right_mm));
    double sum = 0.0;
    for (int x = left; x <= right; ++x) {
        sum += signal.at(x, row);
    }
    return sum / (right - left + 1);
}

/// What both sides of the lane have. Beside an outer lane it may be the plate's edge.
double beside(const Field &signal, const LanePlace &lane, int row) {
    const double reach = 0.5 * kGapMm;
    const double left = mean_across(signal, row, lane.left_mm - reach, lane.left_mm + reach);
    const double right = mean_across(signal, row, lane.right_mm - reach, lane.right_mm + reach);
    return std::min(left, right);
}

} // namespace

LaneProfile lane_profile(const Field &signal, const LanePlace &lane, double core_mm, double low_mm,
                         double high_mm) {
    LaneProfile profile;
    for (int y = signal.row_at(low_mm); y <= signal.row_at(high_mm); ++y) {
        const double middle =
            mean_across(signal, y, lane.x_mm - 0.5 * core_mm, lane.x_mm + 0.5 * core_mm);
        profile.y_mm.push_back(signal.mm_of(y));
        profile.signal.push_back(middle - beside(signal, lane, y));
    }
    return profile;
}

signal::FoundPeaks lane_peaks(const LaneProfile &profile, double least) {
    if (profile.y_mm.size() < kLeastRows) {
        return {};
    }
    signal::FinderSettings settings;
    settings.narrowest_half_width = kNarrowestMm;
    settings.shoulders = false; // where no maximum is, no ruler finds a middle
    settings.baseline_period = kBaselinePeriods * (profile.y_mm.back() - profile.y_mm.front());
    signal::FoundPeaks found = signal::find_peaks(profile.y_mm, profile.signal, settings);
    const double threshold = least / std::max(found.noise.deviation, 1e-9);
    if (threshold < signal::kThreshold) {
        settings.threshold = std::max(kLeastThreshold, threshold);
        found = signal::find_peaks(profile.y_mm, profile.signal, settings);
    }
    return found;
}

} // namespace cospot::plate_photo
