#include "plate_photo/edge_points.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace cospot::plate_photo {

namespace {

constexpr int kStations = 120; ///< on the way, at each of which the light across it is looked at
constexpr double kCornerShare = 0.02;     ///< of the way at both ends, where the other edge is near
constexpr int kBeside = 5;                ///< places along the edge that are averaged at a station
constexpr int kChangeReach = 3;           ///< steps to both sides
constexpr double kLeastOfStrongest = 0.3; ///< of a station's strongest change
constexpr double kCloseSteps = 2.5;       ///< from the curve

/// First derivative of a Gaussian with a deviation of 1.3 steps, without its constant.
constexpr std::array<float, 2 * kChangeReach + 1> kChange{-0.21F, -0.61F, -0.74F, 0.0F,
                                                          0.74F,  0.61F,  0.21F};

/// The frame of the way: a place by the share of the way and the pixels to its left.
struct Way {
    Place from;
    double dx, dy;         ///< the whole way
    double left_x, left_y; ///< of length 1
    double bow_px;

    explicit Way(const EdgeCurve &curve)
        : from(curve.from), dx(curve.to.x - curve.from.x), dy(curve.to.y - curve.from.y),
          left_x(dy / std::hypot(dx, dy)), left_y(-dx / std::hypot(dx, dy)), bow_px(curve.bow_px) {}

    [[nodiscard]] Place at(double share, double left_px) const {
        const double left = left_px + bow_px * 4.0 * share * (1.0 - share);
        return {from.x + share * dx + left * left_x, from.y + share * dy + left * left_y};
    }
};

double share_of(int station) {
    return kCornerShare + (1.0 - 2.0 * kCornerShare) * (station + 0.5) / kStations;
}

std::array<float, 3> nearest_light(const images::Image &photo, Place place) {
    const int x = std::clamp(static_cast<int>(place.x), 0, photo.width - 1);
    const int y = std::clamp(static_cast<int>(place.y), 0, photo.height - 1);
    const std::uint8_t *pixel = &photo.rgb[photo.at(x, y)];
    return {static_cast<float>(pixel[0]), static_cast<float>(pixel[1]),
            static_cast<float>(pixel[2])};
}

/// Changes of colour across the way, by station and step, each as a share of the strongest of its
/// station: so a dark stretch of the edge counts as much as a bright one.
class Changes {
public:
    Changes(const images::Image &photo, const Way &way, const EdgeSearch &search)
        : middle_(static_cast<int>(search.reach_px / search.step_px)),
          values_(static_cast<std::size_t>(kStations) * static_cast<std::size_t>(steps())) {
        for (int station = 0; station < kStations; ++station) {
            fill(station, lights(photo, way, search.step_px, station));
        }
    }
    [[nodiscard]] int steps() const { return 2 * middle_ + 1; }
    [[nodiscard]] int middle() const { return middle_; }
    [[nodiscard]] float at(int station, int step) const { return values_[index(station, step)]; }

private:
    [[nodiscard]] std::size_t index(int station, int step) const {
        return static_cast<std::size_t>(station) * static_cast<std::size_t>(steps()) +
               static_cast<std::size_t>(step);
    }

    [[nodiscard]] std::vector<std::array<float, 3>>
    lights(const images::Image &photo, const Way &way, double step_px, int station) const {
        std::vector<std::array<float, 3>> lights(
            static_cast<std::size_t>(steps() + 2 * kChangeReach));
        for (int i = 0; i < std::ssize(lights); ++i) {
            for (int j = 0; j < kBeside; ++j) {
                const double share =
                    share_of(station) + (j - 0.5 * (kBeside - 1)) / (kBeside * kStations);
                const auto light =
                    nearest_light(photo, way.at(share, (i - kChangeReach - middle_) * step_px));
                for (std::size_t c = 0; c < 3; ++c) {
                    lights[static_cast<std::size_t>(i)][c] += light[c];
                }
            }
        }
        return lights;
    }

    void fill(int station, const std::vector<std::array<float, 3>> &lights) {
        float strongest = 1e-3F;
        for (int step = 0; step < steps(); ++step) {
            float sum = 0.0F;
            for (std::size_t c = 0; c < 3; ++c) {
                float change = 0.0F;
                for (std::size_t i = 0; i < kChange.size(); ++i) {
                    change += kChange[i] * lights[static_cast<std::size_t>(step) + i][c];
                }
                sum += change * change;
            }
            values_[index(station, step)] = std::sqrt(sum);
            strongest = std::max(strongest, std::sqrt(sum));
        }
        for (int step = 0; step < steps(); ++step) {
            values_[index(station, step)] /= strongest;
        }
    }

    int middle_;
    std::vector<float> values_;
};

/// Steps to the left at both ends of the way and, more than the way has, in its middle.
struct Shift {
    int from = 0, to = 0, bow = 0;

    [[nodiscard]] double at(double share) const {
        return std::lerp(from, to, share) + bow * 4.0 * share * (1.0 - share);
    }
};

Shift strongest_shift(const Changes &changes, int most_bow) {
    Shift best;
    float most = -1.0F;
    const int reach = changes.middle();
    for (int bow = -most_bow; bow <= most_bow; ++bow) {
        for (int from = -reach; from <= reach; ++from) {
            for (int to = -reach; to <= reach; ++to) {
                const Shift shift{from, to, bow};
                float sum = 0.0F;
                for (int station = 0; station < kStations; ++station) {
                    const auto step = static_cast<int>(
                        std::lround(shift.at(share_of(station)) + changes.middle()));
                    if (step >= 0 && step < changes.steps()) {
                        sum += changes.at(station, step);
                    }
                }
                if (sum > most) {
                    most = sum;
                    best = shift;
                }
            }
        }
    }
    return best;
}

/// Steps to the left of the way of the strongest change close to the curve; none where it is no
/// maximum, or weak beside another: there something covers the edge.
std::optional<double> change_near(const Changes &changes, int station, double expected) {
    const double centre = expected + changes.middle();
    const int first = std::max(1, static_cast<int>(std::ceil(centre - kCloseSteps)));
    const int last =
        std::min(changes.steps() - 2, static_cast<int>(std::floor(centre + kCloseSteps)));
    int best = 0;
    for (int step = first; step <= last; ++step) {
        const float here = changes.at(station, step);
        if (here >= changes.at(station, step - 1) && here >= changes.at(station, step + 1) &&
            here > kLeastOfStrongest && (best == 0 || here > changes.at(station, best))) {
            best = step;
        }
    }
    if (best == 0) {
        return std::nullopt;
    }
    const double before = changes.at(station, best - 1);
    const double here = changes.at(station, best);
    const double after = changes.at(station, best + 1);
    const double curvature = before - 2.0 * here + after;
    return best - changes.middle() + (curvature < 0.0 ? 0.5 * (before - after) / curvature : 0.0);
}

} // namespace

EdgePoints edge_points(const images::Image &photo, const EdgeCurve &near,
                       const EdgeSearch &search) {
    const Way way(near);
    const Changes changes(photo, way, search);
    const Shift shift =
        strongest_shift(changes, static_cast<int>(search.most_bow_px / search.step_px));
    EdgePoints points;
    points.curve = {way.at(0.0, shift.from * search.step_px),
                    way.at(1.0, shift.to * search.step_px),
                    near.bow_px + shift.bow * search.step_px};
    for (int station = 0; station < kStations; ++station) {
        const double share = share_of(station);
        if (const auto left = change_near(changes, station, shift.at(share))) {
            points.places.push_back(way.at(share, *left * search.step_px));
        }
    }
    points.visible = static_cast<double>(points.places.size()) / kStations;
    return points;
}

} // namespace cospot::plate_photo
