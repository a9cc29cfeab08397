#include "plate_photo/edge_evidence.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>

namespace cospot::plate_photo {

namespace {

constexpr int kAlong = 4; ///< pixels to both sides over which a change is evened along the edge
constexpr double kVisible = 0.95;
constexpr double kStrongest = 0.2;
/// Beyond this a change is no better evidence: that something is black on white does not make it
/// the plate.
constexpr double kRarest = 0.0001;

/// Half of the difference of the neighbours, evened over three pixels across it.
struct Gradient {
    std::vector<float> across, down;
};

Gradient gradient_of(const ReducedPhoto &photo, const std::vector<float> &plane) {
    Gradient gradient{std::vector<float>(plane.size()), std::vector<float>(plane.size())};
    for (int y = 1; y + 1 < photo.height; ++y) {
        const float *above = &plane[photo.at(0, y - 1)];
        const float *here = &plane[photo.at(0, y)];
        const float *below = &plane[photo.at(0, y + 1)];
        float *across = &gradient.across[photo.at(0, y)];
        float *down = &gradient.down[photo.at(0, y)];
        for (int x = 1; x + 1 < photo.width; ++x) {
            across[x] = 0.125F * (above[x + 1] - above[x - 1] + 2.0F * (here[x + 1] - here[x - 1]) +
                                  below[x + 1] - below[x - 1]);
            down[x] = 0.125F * (below[x - 1] - above[x - 1] + 2.0F * (below[x] - above[x]) +
                                below[x + 1] - above[x + 1]);
        }
    }
    return gradient;
}

/// Adds the squared changes of one channel across the direction of `slope`.
void add_changes(const ReducedPhoto &photo, const Gradient &gradient, double slope,
                 std::vector<float> &changes) {
    const auto lean = static_cast<float>(slope);
    const float norm = 1.0F / std::sqrt(1.0F + lean * lean);
    std::vector<float> across(gradient.across.size());
    for (std::size_t i = 0; i < across.size(); ++i) {
        across[i] = norm * (gradient.across[i] - lean * gradient.down[i]);
    }
    const int side = 1 + static_cast<int>(std::ceil(kAlong * std::abs(slope)));
    std::vector<float> sums(static_cast<std::size_t>(photo.width));
    for (int y = kAlong; y < photo.height - kAlong; ++y) {
        std::fill(sums.begin(), sums.end(), 0.0F);
        for (int j = -kAlong; j <= kAlong; ++j) {
            const float *row = &across[photo.at(0, y + j)] + std::lround(slope * j);
            for (int x = side; x < photo.width - side; ++x) {
                sums[static_cast<std::size_t>(x)] += row[x];
            }
        }
        float *total = &changes[photo.at(0, y)];
        for (int x = side; x < photo.width - side; ++x) {
            const float sum = sums[static_cast<std::size_t>(x)];
            total[x] += sum * sum;
        }
    }
}

/// The largest of each value and its left and right neighbour.
std::vector<float> widened(const ReducedPhoto &photo, const std::vector<float> &changes) {
    std::vector<float> wide(changes.size());
    for (int y = 0; y < photo.height; ++y) {
        const float *from = &changes[photo.at(0, y)];
        float *to = &wide[photo.at(0, y)];
        for (int x = 1; x + 1 < photo.width; ++x) {
            to[x] = std::max(from[x], std::max(from[x - 1], from[x + 1]));
        }
    }
    return wide;
}

/// Each change over the mean of those around it: an edge is what stands out where it is, be it
/// faint on even ground or strong beside others. Where nothing changes, the typical change of the
/// photo keeps noise from standing out.
void stand_out(const ReducedPhoto &photo, std::vector<float> &changes) {
    constexpr int reach = 12;
    const auto around = smoothed(changes, photo.width, photo.height, reach);
    std::vector<float> sorted = changes;
    std::nth_element(sorted.begin(), sorted.begin() + std::ssize(sorted) / 2, sorted.end());
    const float typical = sorted[sorted.size() / 2];
    for (std::size_t i = 0; i < changes.size(); ++i) {
        changes[i] /= around[i] + typical + 1e-6F;
    }
}

} // namespace

std::size_t nearest_slope(double slope) {
    const double step = (slope - kSlopes.front()) / (kSlopes[1] - kSlopes[0]);
    return static_cast<std::size_t>(std::clamp(std::lround(step), 0L, std::ssize(kSlopes) - 1));
}

ChangeScale::ChangeScale(double visible, double strongest)
    : visible_(visible), strongest_(strongest), counts_(bucket(1e30F) + 1),
      ratios_(counts_.size()) {}

/// 64 an octave: the upper bits of a float that is not negative rise as its logarithm does.
std::size_t ChangeScale::bucket(float change) {
    constexpr float least = 1e-6F;
    constexpr unsigned dropped_bits = 17;
    const auto bits = std::bit_cast<std::uint32_t>(std::clamp(change, least, 1e30F));
    return (bits - std::bit_cast<std::uint32_t>(least)) >> dropped_bits;
}

void ChangeScale::finish() {
    double all = 0.0;
    for (const std::size_t count : counts_) {
        all += static_cast<double>(count);
    }
    double as_strong = 0.0;
    for (std::size_t i = counts_.size(); i-- > 0;) {
        as_strong += static_cast<double>(counts_[i]);
        const double p = std::max(kRarest, (as_strong + 1.0) / (all + 1.0));
        ratios_[i] = static_cast<float>(
            std::log(1.0 - visible_ + visible_ * strongest_ * std::pow(p, strongest_ - 1.0)));
    }
}

EdgeEvidence edge_evidence(const ReducedPhoto &photo) {
    std::array<Gradient, 3> gradients;
    for (std::size_t c = 0; c < gradients.size(); ++c) {
        gradients[c] = gradient_of(photo, photo.planes[c]);
    }
    EdgeEvidence evidence{photo.width, photo.height, {}};
    for (std::size_t direction = 0; direction < kSlopes.size(); ++direction) {
        std::vector<float> changes(photo.planes[0].size());
        for (const Gradient &gradient : gradients) {
            add_changes(photo, gradient, kSlopes[direction], changes);
        }
        stand_out(photo, changes);
        std::vector<float> &values = evidence.log_ratios[direction];
        values = widened(photo, changes);
        ChangeScale scale(kVisible, kStrongest);
        for (const float change : values) {
            scale.add(change);
        }
        scale.finish();
        for (float &value : values) {
            value = scale.log_ratio(value);
        }
    }
    return evidence;
}

} // namespace cospot::plate_photo
