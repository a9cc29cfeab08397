#include "plate_photo/plate_lines.h"

#include "plate_photo/long_curve.h"

#include <algorithm>
#include <cmath>

namespace cospot::plate_photo {

namespace {

constexpr double kStripMm = 1.0;
constexpr int kLeastStrips = 12;
constexpr int kMostStrips = 48;
constexpr double kLineMarginMm = 2.0; ///< edges of the plate look like lines
constexpr double kHighestStart = 0.4; ///< in heights of the plate
constexpr double kLowestFront = 0.4;
constexpr double kLeastRunMm = 10.0;
constexpr double kPencilShare = 0.5;    ///< of the strips; labels and spots cover some
constexpr double kTraceShare = 0.85;    ///< what the eluent leaves is between spots as well
constexpr double kLineDeviations = 4.0; ///< of the noise, that count as a response of 1
constexpr double kPencilReachMm = 0.75;
constexpr double kBroadReachMm = 2.25;
constexpr float kBroadWeight = 0.4F;
constexpr double kBandReachMm = 1.75;
constexpr double kLeastPencil = 0.01; ///< change of light, that counts as a response of 1
constexpr double kLeastBand = 0.015;
constexpr double kLeastEdge = 0.03;
constexpr double kEdgeUncertaintyMm = 0.4; ///< an edge of wetness is no line

/// Light of all channels over the layer's, in strips across the plate, as logarithms.
Field strips_of(const LayerLight &layer, bool evened) {
    const Field &first = layer.light[0];
    const double width_mm = first.width / first.cells_per_mm;
    const int strips =
        std::clamp(static_cast<int>(width_mm / kStripMm), std::min(kLeastStrips, first.width),
                   std::min(kMostStrips, first.width));
    Field light = empty_field(strips, first.height, first.cells_per_mm);
    Field ground = light;
    for (int y = 0; y < first.height; ++y) {
        for (int x = 0; x < first.width; ++x) {
            const int strip = x * strips / first.width;
            for (std::size_t c = 0; c < 3; ++c) {
                const double share = 1.0 + layer.change[c].at(x, y);
                light.at(strip, y) += layer.light[c].at(x, y);
                ground.at(strip, y) += static_cast<float>(
                    evened ? layer.light[c].at(x, y) / std::max(share, 1e-3) : 1.0);
            }
        }
    }
    for (std::size_t i = 0; i < light.values.size(); ++i) {
        light.values[i] =
            std::log(std::max(light.values[i], 1e-4F) / std::max(ground.values[i], 1e-4F));
    }
    return light;
}

/// The mean of the rows from `from` to `to` above a row, kept inside.
double mean_of_rows(const Field &strips, int strip, int row, int from, int to) {
    double sum = 0.0;
    for (int y = row + from; y <= row + to; ++y) {
        sum += strips.at(strip, std::clamp(y, 0, strips.height - 1));
    }
    return sum / (to - from + 1);
}

template <typename Response> Field respond(const Field &strips, Response response) {
    Field result = strips;
    for (int y = 0; y < strips.height; ++y) {
        for (int x = 0; x < strips.width; ++x) {
            result.at(x, y) = static_cast<float>(response(x, y));
        }
    }
    return result;
}

/// In units of what noise makes unlikely, or of `least` where there is little noise.
Field in_units(Field response, double least) {
    const double unit = std::max(least, kLineDeviations * deviation_of(response));
    for (float &value : response.values) {
        value = static_cast<float>(value / unit);
    }
    return response;
}

/// How much darker (`sign` 1) or brighter (-1) a row is than both rows `reach_mm` off.
Field line_response(const Field &strips, double reach_mm, int half_width, double sign) {
    const int reach = std::max(2, static_cast<int>(std::lround(reach_mm * strips.cells_per_mm)));
    return respond(strips, [&](int x, int y) {
        const double here = mean_of_rows(strips, x, y, -half_width, half_width);
        const double above = mean_of_rows(strips, x, y + reach, -half_width, half_width);
        const double below = mean_of_rows(strips, x, y - reach, -half_width, half_width);
        return std::min(sign * above, sign * below) - sign * here;
    });
}

/// What is as thin as a pencil line: farther off it is hardly brighter than close by. Spots in a
/// row are not thin.
Field pencil_response(const Field &strips) {
    Field response = line_response(strips, kPencilReachMm, 0, 1.0);
    const Field broad = line_response(strips, kBroadReachMm, 0, 1.0);
    for (std::size_t i = 0; i < response.values.size(); ++i) {
        const float more = std::max(0.0F, broad.values[i] - response.values[i]);
        response.values[i] -= kBroadWeight * more;
    }
    return response;
}

/// How much brighter (`sign` 1) it is above a row than below it; slopes alone do not count.
Field edge_response(const Field &strips, double sign) {
    const auto cells = [&](double mm) {
        return std::max(1, static_cast<int>(std::lround(mm * strips.cells_per_mm)));
    };
    const int gap = cells(0.3);
    const int reach = cells(1.8);
    const Field step = respond(strips, [&](int x, int y) {
        return sign *
               (mean_of_rows(strips, x, y, gap, reach) - mean_of_rows(strips, x, y, -reach, -gap));
    });
    const int beside = cells(2.6);
    return respond(step, [&](int x, int y) {
        const double above = step.at(x, std::min(y + beside, step.height - 1));
        const double below = step.at(x, std::max(y - beside, 0));
        return step.at(x, y) - std::max({0.0, above, below});
    });
}

std::optional<PlateLine> clearest(const std::vector<LongCurve> &curves) {
    return curves.empty() ? std::nullopt : std::optional(curves.front().line);
}

std::optional<PlateLine> pencil_line(const Field &pencil, double width_mm, double low_mm,
                                     double high_mm) {
    std::optional<PlateLine> line =
        clearest(long_curves(pencil, width_mm, low_mm, high_mm, kPencilShare));
    if (line) {
        line->drawn = true;
    }
    return line;
}

/// What the eluent left: a dark or bright band, else an edge between wet and dry.
std::optional<PlateLine> traced_front(const LayerLight &layer, const Field &evened, double width_mm,
                                      double low_mm, double high_mm) {
    std::vector<LongCurve> curves;
    const auto add = [&](const Field &response, double uncertainty_mm) {
        for (LongCurve curve : long_curves(response, width_mm, low_mm, high_mm, kTraceShare)) {
            curve.line.uncertainty_mm = std::hypot(curve.line.uncertainty_mm, uncertainty_mm);
            curves.push_back(curve);
        }
    };
    for (const double sign : {1.0, -1.0}) {
        add(in_units(line_response(evened, kBandReachMm, 1, sign), kLeastBand), 0.2);
    }
    if (curves.empty()) {
        const Field strips = strips_of(layer, false);
        for (const double sign : {1.0, -1.0}) {
            add(in_units(edge_response(strips, sign), kLeastEdge), kEdgeUncertaintyMm);
        }
    }
    std::sort(curves.begin(), curves.end(),
              [](const LongCurve &a, const LongCurve &b) { return a.share > b.share; });
    return clearest(curves);
}

} // namespace

PlateLines seen_lines(const LayerLight &layer) {
    const Field &first = layer.light[0];
    const double width_mm = first.width / first.cells_per_mm;
    const double height_mm = first.height / first.cells_per_mm;
    const Field evened = strips_of(layer, true);
    const Field pencil = in_units(pencil_response(evened), kLeastPencil);
    PlateLines lines;
    lines.start = pencil_line(pencil, width_mm, kLineMarginMm, kHighestStart * height_mm);
    const double low_mm = std::max(kLowestFront * height_mm,
                                   lines.start ? lines.start->middle_mm + kLeastRunMm : 0.0);
    const double high_mm = height_mm - kLineMarginMm;
    lines.front = pencil_line(pencil, width_mm, low_mm, high_mm);
    if (!lines.front) {
        lines.front = traced_front(layer, evened, width_mm, low_mm, high_mm);
    }
    return lines;
}

PlateLine given_line(double y_mm) {
    constexpr double kReadingUncertaintyMm = 0.3;
    return {.left_mm = y_mm,
            .middle_mm = y_mm,
            .right_mm = y_mm,
            .uncertainty_mm = kReadingUncertaintyMm,
            .given = true};
}

double height_at(const PlateLine &line, double x_mm, double width_mm) {
    const double u = 2.0 * x_mm / width_mm - 1.0;
    const double slant = 0.5 * (line.right_mm - line.left_mm);
    const double bend = 0.5 * (line.right_mm + line.left_mm) - line.middle_mm;
    return line.middle_mm + slant * u + bend * u * u;
}

} // namespace cospot::plate_photo
