#include "plate_photo/lanes.h"

#include "shared/robust.h"
#include "signal/maxima.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace cospot::plate_photo {

namespace {

constexpr double kBlobReachMm = 1.25; ///< a blob is the highest within this
constexpr double kCutOffMm = 1.5;     ///< what is highest so near an edge is cut off by it
constexpr double kBandwidth = 0.3;    ///< of the density of blobs, in widths of a blob
constexpr double kLeastBandwidthMm = 0.6;
constexpr double kFullHeight = 0.1; ///< signal from which a blob counts in full
constexpr double kFullShare = 0.5;  ///< of the highest, from which it does as well
constexpr double kDensityStepMm = 0.2;
constexpr double kValley = 0.25;   ///< share of a lane's density, that has to part it from the next
constexpr double kTooClose = 0.7;  ///< in distances of lanes that are beyond doubt
constexpr double kEdgeShare = 0.3; ///< of that distance, that a lane keeps from an edge
constexpr double kSureWeight = 0.99; ///< a blob that counts in full, or several
constexpr double kUsualWidthMm = 4.0;
constexpr double kAloneWidths = 1.2;

bool is_highest(const Field &signal, int x, int y, int reach) {
    const float here = signal.at(x, y);
    for (int v = std::max(0, y - reach); v <= std::min(signal.height - 1, y + reach); ++v) {
        for (int u = std::max(0, x - reach); u <= std::min(signal.width - 1, x + reach); ++u) {
            const bool earlier = v < y || (v == y && u < x);
            if (signal.at(u, v) > here || (earlier && signal.at(u, v) == here)) {
                return false;
            }
        }
    }
    return true;
}

/// None where it reaches an edge of the plate at half of its height, as what covers the edge does.
std::optional<Blob> blob_at(const Field &signal, int x, int y) {
    const float half = 0.5F * signal.at(x, y);
    int left = x;
    int right = x;
    while (left > 0 && signal.at(left - 1, y) > half) {
        --left;
    }
    while (right < signal.width - 1 && signal.at(right + 1, y) > half) {
        ++right;
    }
    if (left == 0 || right == signal.width - 1) {
        return std::nullopt;
    }
    return Blob{.x_mm = 0.5 * (signal.mm_of(left) + signal.mm_of(right)),
                .y_mm = signal.mm_of(y),
                .height = signal.at(x, y),
                .width_mm = (right - left + 1) / signal.cells_per_mm};
}

/// The height from which blobs count in full: what is high on this plate.
double full_height(const std::vector<Blob> &blobs) {
    double highest = 0.0;
    for (const Blob &blob : blobs) {
        highest = std::max(highest, blob.height);
    }
    return std::min(kFullHeight, kFullShare * highest);
}

/// How many blobs lie around each place across the plate.
std::vector<double> density_of(const std::vector<Blob> &blobs, double width_mm,
                               double bandwidth_mm) {
    const double full = full_height(blobs);
    std::vector<double> density(static_cast<std::size_t>(width_mm / kDensityStepMm) + 2);
    for (std::size_t i = 0; i < density.size(); ++i) {
        const double x = kDensityStepMm * (static_cast<double>(i) - 0.5);
        for (const Blob &blob : blobs) {
            density[i] += std::min(1.0, blob.height / full) *
                          std::exp(-0.5 * std::pow((x - blob.x_mm) / bandwidth_mm, 2));
        }
    }
    density.front() = 0.0; // a maximum has to fall off on both sides
    density.back() = 0.0;
    return density;
}

struct DenseLane {
    double x_mm = 0.0;
    double weight = 0.0;
};

std::vector<DenseLane> dense_lanes(const std::vector<Blob> &blobs, double width_mm) {
    const double bandwidth = std::max(kLeastBandwidthMm, kBandwidth * usual_width(blobs));
    const std::vector<double> density = density_of(blobs, width_mm, bandwidth);
    const double full = full_height(blobs);
    std::vector<DenseLane> lanes;
    for (const signal::Maximum &maximum :
         signal::prominent_maxima(density, {.absolute = 1e-3, .share_of_height = kValley})) {
        const auto at = [&](std::size_t i) {
            return kDensityStepMm * (static_cast<double>(i) - 0.5);
        };
        DenseLane lane;
        for (const Blob &blob : blobs) {
            if (blob.x_mm >= at(maximum.valley_before) && blob.x_mm <= at(maximum.valley_after)) {
                lane.x_mm += std::min(1.0, blob.height / full) * blob.x_mm;
                lane.weight += std::min(1.0, blob.height / full);
            }
        }
        if (lane.weight > 0.0) {
            lane.x_mm /= lane.weight;
            lanes.push_back(lane);
        }
    }
    return lanes;
}

/// The least distance between lanes that are beyond doubt; the plate's width where there is one.
double least_distance(const std::vector<DenseLane> &lanes, double width_mm) {
    double least = width_mm;
    const DenseLane *last = nullptr;
    for (const DenseLane &lane : lanes) {
        if (lane.weight < kSureWeight) {
            continue;
        }
        if (last != nullptr) {
            least = std::min(least, lane.x_mm - last->x_mm);
        }
        last = &lane;
    }
    return least;
}

/// Lanes are drawn with even distances: from the surest on, those stay that are not too close to
/// one that stays, nor to an edge of the plate.
std::vector<double> parted_lanes(std::vector<DenseLane> lanes, double width_mm) {
    const double distance = least_distance(lanes, width_mm);
    const double apart = distance < width_mm ? kTooClose * distance : 0.0;
    std::stable_sort(lanes.begin(), lanes.end(),
                     [](const DenseLane &a, const DenseLane &b) { return a.weight > b.weight; });
    std::vector<double> stay;
    for (const DenseLane &lane : lanes) {
        const bool sure = lane.weight >= kSureWeight;
        const bool at_edge = std::min(lane.x_mm, width_mm - lane.x_mm) < kEdgeShare * apart;
        const bool close = std::any_of(stay.begin(), stay.end(), [&](double x_mm) {
            return std::abs(lane.x_mm - x_mm) < apart;
        });
        if (!close && (sure || !at_edge)) {
            stay.push_back(lane.x_mm);
        }
    }
    return stay;
}

} // namespace

std::vector<Blob> blobs(const Field &signal, double least, double low_mm, double high_mm,
                        double most_width_mm) {
    const int reach = std::max(1, static_cast<int>(kBlobReachMm * signal.cells_per_mm));
    const double width_mm = signal.width / signal.cells_per_mm;
    std::vector<Blob> found;
    for (int y = signal.row_at(low_mm); y <= signal.row_at(high_mm); ++y) {
        for (int x = 0; x < signal.width; ++x) {
            const double x_mm = signal.mm_of(x);
            if (signal.at(x, y) < least || x_mm < kCutOffMm || x_mm > width_mm - kCutOffMm ||
                !is_highest(signal, x, y, reach)) {
                continue;
            }
            const std::optional<Blob> blob = blob_at(signal, x, y);
            if (blob && blob->width_mm <= most_width_mm) {
                found.push_back(*blob);
            }
        }
    }
    return found;
}

double usual_width(const std::vector<Blob> &blobs) {
    std::vector<double> widths;
    for (const Blob &blob : blobs) {
        widths.push_back(blob.width_mm);
    }
    return widths.empty() ? kUsualWidthMm : median(std::move(widths));
}

std::vector<LanePlace> found_lanes(const std::vector<Blob> &blobs, double width_mm) {
    if (blobs.empty()) {
        return {};
    }
    std::vector<double> middles = parted_lanes(dense_lanes(blobs, width_mm), width_mm);
    return lanes_at(std::move(middles), width_mm, kAloneWidths * usual_width(blobs));
}

std::vector<LanePlace> lanes_at(std::vector<double> middles_mm, double width_mm, double alone_mm) {
    std::sort(middles_mm.begin(), middles_mm.end());
    std::vector<LanePlace> lanes;
    for (std::size_t i = 0; i < middles_mm.size(); ++i) {
        const double x = middles_mm[i];
        std::optional<double> left;
        std::optional<double> right;
        if (i > 0) {
            left = 0.5 * (x - middles_mm[i - 1]);
        }
        if (i + 1 < middles_mm.size()) {
            right = 0.5 * (middles_mm[i + 1] - x);
        }
        lanes.push_back(
            {.x_mm = x,
             .left_mm = std::max(0.0, x - left.value_or(right.value_or(alone_mm))),
             .right_mm = std::min(width_mm, x + right.value_or(left.value_or(alone_mm)))});
    }
    return lanes;
}

} // namespace cospot::plate_photo
