#include "plate_photo/straight_edges.h"

#include "plate_photo/lens.h"
#include "shared/robust.h"

#include <algorithm>
#include <cmath>

namespace cospot::plate_photo {

namespace {

constexpr std::size_t kLeastPlaces = 10;
constexpr double kLeastScatterPx = 0.3;
constexpr double kBiweight = 4.685; ///< deviations (Tukey), beyond which a place does not count
constexpr double kUsualRadial =
    0.02; ///< standard deviation among lenses (common practice, no source)
constexpr double kStrongestRadial = 0.08;
/// Neighbouring places err alike: the edge is rough, its light the same.
constexpr double kAlikePlaces = 5.0;

/// A pixel's half: a glass plate has two edges, one above the other, and light blooms over both.
constexpr double kLeastUncertaintyPx = 0.5;

/// All places with normal_x x + normal_y y = offset; the normal of length 1.
struct FittedLine {
    double normal_x = 0.0, normal_y = 0.0, offset = 0.0;
    double scatter = 0.0;      ///< standard, of the places that count
    double cost = 0.0;         ///< sum of bounded squared distances, in px
    double counted = 0.0;      ///< places, by their weights
    double error_at_end = 0.0; ///< standard
    double share = 0.0;        ///< of the places on it

    [[nodiscard]] double beside(Place p) const { return normal_x * p.x + normal_y * p.y - offset; }
};

/// By the smallest sum of weighted squared distances.
FittedLine weighted_line(const std::vector<Place> &places, const std::vector<double> &weights) {
    double sum = 0.0;
    Place mean;
    for (std::size_t i = 0; i < places.size(); ++i) {
        sum += weights[i];
        mean.x += weights[i] * places[i].x;
        mean.y += weights[i] * places[i].y;
    }
    mean.x /= sum;
    mean.y /= sum;
    double xx = 0.0;
    double xy = 0.0;
    double yy = 0.0;
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double x = places[i].x - mean.x;
        const double y = places[i].y - mean.y;
        xx += weights[i] * x * x;
        xy += weights[i] * x * y;
        yy += weights[i] * y * y;
    }
    const double direction = 0.5 * std::atan2(2.0 * xy, xx - yy);
    FittedLine line;
    line.normal_x = -std::sin(direction);
    line.normal_y = std::cos(direction);
    line.offset = line.normal_x * mean.x + line.normal_y * mean.y;
    line.counted = sum;
    return line;
}

FittedLine robust_line(const std::vector<Place> &places) {
    std::vector<double> weights(places.size(), 1.0);
    FittedLine line;
    constexpr int rounds = 12;
    for (int round = 0; round < rounds; ++round) {
        line = weighted_line(places, weights);
        std::vector<double> distances;
        for (const Place place : places) {
            distances.push_back(line.beside(place));
        }
        line.scatter = std::max(kLeastScatterPx, deviation_about_zero(distances));
        line.cost = 0.0;
        double on_it = 0.0;
        const double most = kBiweight * line.scatter;
        for (std::size_t i = 0; i < places.size(); ++i) {
            const double part = std::min(1.0, distances[i] * distances[i] / (most * most));
            weights[i] = (1.0 - part) * (1.0 - part);
            line.cost += (1.0 - (1.0 - part) * (1.0 - part) * (1.0 - part)) * most * most / 3.0;
            on_it += part < 1.0 ? 1.0 : 0.0;
        }
        line.share = on_it / static_cast<double>(places.size());
    }
    // Twice the error of the mean: that of a straight line at its ends.
    line.error_at_end = 2.0 * line.scatter * std::sqrt(kAlikePlaces / std::max(1.0, line.counted));
    return line;
}

std::array<FittedLine, 4> lines_through(const EdgePlaces &places, const Lens &lens) {
    std::array<FittedLine, 4> lines;
    for (std::size_t i = 0; i < places.size(); ++i) {
        std::vector<Place> straight;
        for (const Place place : places[i]) {
            straight.push_back(straightened(lens, place));
        }
        lines[i] = robust_line(straight);
    }
    return lines;
}

/// How unlikely the edges are under a lens, as half of a chi-square: their scatter about straight
/// lines against that at best, and the lens itself.
double unlikeliness(const EdgePlaces &places, Lens lens, double radial, double scatter) {
    lens.radial = radial;
    double cost = 0.0;
    for (const FittedLine &line : lines_through(places, lens)) {
        cost += line.cost;
    }
    const double unusual = radial / kUsualRadial;
    return 0.5 * cost / (kAlikePlaces * scatter * scatter) + 0.5 * unusual * unusual;
}

double typical_scatter(const EdgePlaces &places, const Lens &lens) {
    std::vector<double> scatters;
    for (const FittedLine &line : lines_through(places, lens)) {
        scatters.push_back(line.scatter);
    }
    return median(scatters);
}

/// The most likely radial distortion, on a grid and then between its values.
double likely_radial(const EdgePlaces &places, const Lens &lens) {
    constexpr double step = 0.008;
    double scatter = typical_scatter(places, lens);
    for (double radial = -kStrongestRadial; radial < 0.5 * kStrongestRadial; radial += step) {
        Lens tried = lens;
        tried.radial = radial;
        scatter = std::min(scatter, typical_scatter(places, tried));
    }
    const auto at = [&](double radial) { return unlikeliness(places, lens, radial, scatter); };
    double best = 0.0;
    double least = at(0.0);
    for (double radial = -kStrongestRadial; radial < 0.5 * kStrongestRadial; radial += step) {
        if (const double value = at(radial); value < least) {
            least = value;
            best = radial;
        }
    }
    for (double half = 0.5 * step; half > 2e-4; half *= 0.5) {
        for (const double radial : {best - half, best + half}) {
            if (const double value = at(radial); value < least) {
                least = value;
                best = radial;
            }
        }
    }
    return best;
}

std::optional<Place> meeting(const FittedLine &a, const FittedLine &b) {
    const double across = a.normal_x * b.normal_y - a.normal_y * b.normal_x;
    if (std::abs(across) < 0.3) {
        return std::nullopt;
    }
    return Place{(a.offset * b.normal_y - b.offset * a.normal_y) / across,
                 (b.offset * a.normal_x - a.offset * b.normal_x) / across};
}

} // namespace

std::optional<StraightEdges> straight_edges(const EdgePlaces &places, Lens lens) {
    for (const auto &edge : places) {
        if (edge.size() < kLeastPlaces) {
            return std::nullopt;
        }
    }
    lens.radial = likely_radial(places, lens);
    const auto lines = lines_through(places, lens);
    StraightEdges edges;
    edges.outline.lens = lens;
    double variance = 0.0;
    for (std::size_t i = 0; i < 4; ++i) {
        const auto corner = meeting(lines[(i + 3) % 4], lines[i]);
        if (!corner) {
            return std::nullopt;
        }
        edges.outline.corners[i] = seen(lens, *corner);
        edges.straight[i] = lines[i].share;
        edges.scatter_px = std::max(edges.scatter_px, lines[i].scatter);
        variance += 2.0 * lines[i].error_at_end * lines[i].error_at_end / 4.0;
    }
    edges.outline.uncertainty_px = std::max(kLeastUncertaintyPx, std::sqrt(variance));
    return edges;
}

} // namespace cospot::plate_photo
