#include "plate_photo/spot_field.h"

#include "shared/robust.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace cospot::plate_photo {

namespace {

constexpr double kSpeckMm = 0.5;     ///< radius of the largest speck that is no spot
constexpr double kSpeckBroad = 0.12; ///< of the height of such a speck, that the disc fits into
constexpr double kLeastBroad = 0.2;  ///< of the height, that it fits into in the smallest spots
constexpr double kThinNoise = 3.0;   ///< deviations, that it takes from the layer
constexpr double kNearMm = 0.5;
constexpr double kLineReachMm = 0.9; ///< of a pencil line, blurred as it is
constexpr double kLineVaries = 1.3;  ///< a pencil presses more here and less there
constexpr double kRowReachMm = 15.0;
constexpr double kFreeShare = 0.25; ///< of the cells of a row, that are free of spots
constexpr double kRowStepMm = 4.0;
constexpr float kAlmostNothing = 1e-6F;
constexpr double kNoiseSideMm = 20.0;
constexpr std::array<int, 3> kCalming{1, 2, 4}; ///< cells: half heights of 0.6, 1.2 and 2.3 mm

/// Diameter of the disc that fits into kSpeckBroad of a speck, blurred as the signal is: cells and
/// two means over three of them have a variance of 17 / 12 cells^2; a disc has a quarter of its
/// radius^2.
double disc_diameter_mm(const Field &signal) {
    const double variance =
        17.0 / 12.0 / std::pow(signal.cells_per_mm, 2) + 0.25 * kSpeckMm * kSpeckMm;
    return 2.0 * std::sqrt(2.0 * variance * std::log(1.0 / kSpeckBroad));
}

/// Without what is too thin for a spot; where a spot is, the signal stays as it is.
Field without_thin(const Field &seen, const Field &broad, const Field &noise) {
    Field result = seen;
    for (int y = 0; y < seen.height; ++y) {
        for (int x = 0; x < seen.width; ++x) {
            const double noise_here =
                noise.at(noise.column_at(seen.mm_of(x)), noise.row_at(seen.mm_of(y)));
            const double most =
                std::max(0.0F, broad.at(x, y)) / kLeastBroad + kThinNoise * noise_here;
            result.at(x, y) = std::min(seen.at(x, y), static_cast<float>(most));
        }
    }
    return result;
}

/// The cells of a column that a line covers, and the signal drawn straight from below to above it.
struct CoveredCells {
    int low = 0;
    int high = 0;
    double below = 0.0;
    double above = 0.0;

    [[nodiscard]] double straight(int y) const {
        return std::lerp(below, above, (y - low) / static_cast<double>(high - low));
    }
};

CoveredCells covered_cells(const Field &signal, const PlateLine &line, int x) {
    const double width_mm = signal.width / signal.cells_per_mm;
    const int middle = signal.row_at(height_at(line, signal.mm_of(x), width_mm));
    const int reach = static_cast<int>(std::lround(kLineReachMm * signal.cells_per_mm));
    CoveredCells covered{.low = std::max(0, middle - reach),
                         .high = std::min(signal.height - 1, middle + reach)};
    covered.below = signal.at(x, covered.low);
    covered.above = signal.at(x, covered.high);
    return covered;
}

/// Takes away what a line adds along most of its length; a spot on it stays.
void take_line_away(Field &signal, const PlateLine &line) {
    const int rows = 2 * static_cast<int>(std::lround(kLineReachMm * signal.cells_per_mm)) + 1;
    std::vector<std::vector<double>> added(static_cast<std::size_t>(rows));
    for (int x = 0; x < signal.width; ++x) {
        const CoveredCells covered = covered_cells(signal, line, x);
        for (int y = covered.low + 1; y < covered.high; ++y) {
            added[static_cast<std::size_t>(y - covered.low)].push_back(signal.at(x, y) -
                                                                       covered.straight(y));
        }
    }
    std::vector<double> usual;
    for (std::vector<double> &row : added) {
        usual.push_back(row.empty() ? 0.0 : kLineVaries * std::max(0.0, median(row)));
    }
    for (int x = 0; x < signal.width; ++x) {
        const CoveredCells covered = covered_cells(signal, line, x);
        for (int y = covered.low + 1; y < covered.high; ++y) {
            const double without =
                signal.at(x, y) - usual[static_cast<std::size_t>(y - covered.low)];
            signal.at(x, y) = static_cast<float>(
                std::min<double>(signal.at(x, y), std::max(without, covered.straight(y))));
        }
    }
}

/// What all but a quarter of the cells beside a place of a row have.
double band_at(const Field &signal, int x, int y, std::vector<float> &values) {
    const int reach = static_cast<int>(kRowReachMm * signal.cells_per_mm);
    values.clear();
    for (int u = std::max(0, x - reach); u <= std::min(signal.width - 1, x + reach); u += 2) {
        values.push_back(signal.at(u, y));
    }
    const auto low = values.begin() +
                     static_cast<std::ptrdiff_t>(kFreeShare * static_cast<double>(values.size()));
    std::nth_element(values.begin(), low, values.end());
    return std::max(0.0F, *low);
}

void take_bands_away(Field &signal) {
    const int step = std::max(1, static_cast<int>(kRowStepMm * signal.cells_per_mm));
    std::vector<float> values;
    std::vector<double> bands;
    for (int y = 0; y < signal.height; ++y) {
        bands.clear();
        for (int x = 0; x < signal.width + step; x += step) {
            bands.push_back(band_at(signal, std::min(x, signal.width - 1), y, values));
        }
        for (int x = 0; x < signal.width; ++x) {
            const auto knot = static_cast<std::size_t>(x / step);
            const double share = static_cast<double>(x % step) / step;
            signal.at(x, y) -= static_cast<float>(std::lerp(bands[knot], bands[knot + 1], share));
        }
    }
}

/// What most cells have, 0, and larger spots stand out from.
CalmSignal calmed(const Field &sharp, int radius) {
    CalmSignal calm{smoothed(sharp, radius), {}};
    const auto level = static_cast<float>(
        upper_median(std::vector<double>(calm.signal.values.begin(), calm.signal.values.end())));
    for (float &value : calm.signal.values) {
        value -= level;
    }
    calm.noise = deviations_in(calm.signal, kNoiseSideMm);
    return calm;
}

ClearedSignal cleared(Field sharp) {
    ClearedSignal signal;
    for (std::size_t i = 0; i < kCalming.size(); ++i) {
        signal.calm[i] = calmed(sharp, kCalming[i]);
    }
    signal.sharp = std::move(sharp);
    return signal;
}

/// What is no spot leaves a channel in the same share as it leaves the signal.
Field cleared_colour(Field colour, const Field &before, const Field &after) {
    for (std::size_t i = 0; i < colour.values.size(); ++i) {
        const float all = std::max(before.values[i], kAlmostNothing);
        colour.values[i] *= std::clamp(after.values[i] / all, 0.0F, 1.0F);
    }
    return colour;
}

} // namespace

SpotField spot_field(SpotSignal spots, const PlateLines &drawn) {
    SpotField field;
    field.seen = spots.signal;
    field.noise = std::move(spots.noise);
    for (const std::optional<PlateLine> &line : {drawn.start, drawn.front}) {
        if (line && line->drawn) {
            take_line_away(field.seen, *line);
        }
    }
    take_bands_away(field.seen);
    field.broad = opened(field.seen, disc_diameter_mm(field.seen));
    field.signal = cleared(without_thin(field.seen, field.broad, field.noise));
    for (Field &colour : spots.colours) {
        field.colours.push_back(
            cleared(cleared_colour(std::move(colour), spots.signal, field.signal.sharp)));
    }
    return field;
}

double ClearedSignal::deviations_at(double x_mm, double y_mm) const {
    double most = 0.0;
    for (const CalmSignal &size : calm) {
        most = std::max(most, size.deviations_at(x_mm, y_mm));
    }
    return most;
}

bool reaches_edge(const Field &signal, double x_mm, double y_mm) {
    const float half = 0.5F * static_cast<float>(value_at(signal, x_mm, y_mm));
    std::vector<char> visited(signal.values.size());
    std::vector<std::pair<int, int>> open{{signal.column_at(x_mm), signal.row_at(y_mm)}};
    while (!open.empty()) {
        const auto [x, y] = open.back();
        open.pop_back();
        if (x < 0 || y < 0 || x >= signal.width || y >= signal.height) {
            return true;
        }
        char &here = visited[static_cast<std::size_t>(y) * static_cast<std::size_t>(signal.width) +
                             static_cast<std::size_t>(x)];
        if (here != 0 || signal.at(x, y) <= half) {
            continue;
        }
        here = 1;
        open.insert(open.end(), {{x - 1, y}, {x + 1, y}, {x, y - 1}, {x, y + 1}});
    }
    return false;
}

bool is_broad(const SpotField &spots, double x_mm, double y_mm) {
    double broad = 0.0;
    double all = 0.0;
    for (int y = spots.broad.row_at(y_mm - kNearMm); y <= spots.broad.row_at(y_mm + kNearMm); ++y) {
        for (int x = spots.broad.column_at(x_mm - kNearMm);
             x <= spots.broad.column_at(x_mm + kNearMm); ++x) {
            broad = std::max<double>(broad, spots.broad.at(x, y));
            all = std::max<double>(all, spots.seen.at(x, y));
        }
    }
    return broad >= kLeastBroad * all;
}

} // namespace cospot::plate_photo
