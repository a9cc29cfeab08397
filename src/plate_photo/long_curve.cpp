#include "plate_photo/long_curve.h"

#include "plate_photo/plate_lines.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <optional>

namespace cospot::plate_photo {

namespace {

constexpr double kStepMm = 0.5;      ///< of the curves that are tried
constexpr double kMostSlant = 0.035; ///< rise of an end over the middle, in widths of the plate
constexpr double kMostBend = 0.03;
constexpr double kLeastRangeMm = 1.5;
constexpr double kApartMm = 1.5; ///< curves nearer than this are one
constexpr double kRefineReachMm = 0.8;
constexpr int kRefineRounds = 4;
constexpr double kCounts = 0.5;     ///< a response from which a strip's place counts
constexpr double kFirstShare = 0.8; ///< of the share asked for, that a curve needs to be refined
/// Standard uncertainty of a line's place that its width and the camera leave.
constexpr double kPlaceUncertaintyMm = 0.08;

double held(double response) {
    return std::clamp(response, -1.0, 1.0);
}

/// The largest response over steps of kStepMm, so that a curve between steps is not missed.
Field pooled(const Field &response) {
    const int rows =
        std::max(1, static_cast<int>(response.height / response.cells_per_mm / kStepMm));
    Field pool = empty_field(response.width, rows, 1.0 / kStepMm);
    std::fill(pool.values.begin(), pool.values.end(), -1.0F);
    for (int y = 0; y < response.height; ++y) {
        const int row = pool.row_at(response.mm_of(y));
        for (int x = 0; x < response.width; ++x) {
            pool.at(x, row) =
                std::max(pool.at(x, row), static_cast<float>(held(response.at(x, y))));
        }
    }
    return pool;
}

/// A curve in steps: its height in the middle, by how much its right end lies higher than the mean
/// of both ends, and the mean of both ends than the middle.
struct Trial {
    int middle = 0;
    int slant = 0;
    int bend = 0;
    double score = 0.0;
};

double across(int strip, int strips) {
    return 2.0 * (strip + 0.5) / strips - 1.0;
}

double score_of(const Field &pool, const std::vector<int> &offsets, int middle) {
    double sum = 0.0;
    for (int x = 0; x < pool.width; ++x) {
        const int y = middle + offsets[static_cast<std::size_t>(x)];
        sum += y >= 0 && y < pool.height ? pool.at(x, y) : -1.0F;
    }
    return sum / pool.width;
}

/// The best curve at each height.
std::vector<Trial> best_trials(const Field &pool, double width_mm, int low, int high) {
    const auto range = [&](double share) {
        return static_cast<int>(std::max(kLeastRangeMm, share * width_mm) / kStepMm);
    };
    std::vector<Trial> best(static_cast<std::size_t>(std::max(0, high - low + 1)));
    std::vector<int> offsets(static_cast<std::size_t>(pool.width));
    for (int slant = -range(kMostSlant); slant <= range(kMostSlant); ++slant) {
        for (int bend = -range(kMostBend); bend <= range(kMostBend); ++bend) {
            for (int x = 0; x < pool.width; ++x) {
                const double u = across(x, pool.width);
                offsets[static_cast<std::size_t>(x)] =
                    static_cast<int>(std::lround(slant * u + bend * u * u));
            }
            for (int middle = low; middle <= high; ++middle) {
                Trial &here = best[static_cast<std::size_t>(middle - low)];
                const double score = score_of(pool, offsets, middle);
                if (score > here.score) {
                    here = {.middle = middle, .slant = slant, .bend = bend, .score = score};
                }
            }
        }
    }
    return best;
}

PlateLine line_of(const Eigen::Vector3d &curve) {
    return {.left_mm = curve(0) - curve(1) + curve(2),
            .middle_mm = curve(0),
            .right_mm = curve(0) + curve(1) + curve(2)};
}

/// Where a strip responds most near `y_mm`, between its rows.
std::optional<double> place_in_strip(const Field &response, int strip, double y_mm) {
    int best = -1;
    for (int y = response.row_at(y_mm - kRefineReachMm);
         y <= response.row_at(y_mm + kRefineReachMm); ++y) {
        if (response.at(strip, y) >= kCounts &&
            (best < 0 || response.at(strip, y) > response.at(strip, best))) {
            best = y;
        }
    }
    if (best <= 0 || best >= response.height - 1) {
        return std::nullopt;
    }
    const double before = response.at(strip, best - 1);
    const double top = response.at(strip, best);
    const double after = response.at(strip, best + 1);
    const double bend = before - 2.0 * top + after;
    const double shift = bend < 0.0 ? std::clamp(0.5 * (before - after) / bend, -0.5, 0.5) : 0.0;
    return response.mm_of(best) + shift / response.cells_per_mm;
}

struct StripPlaces {
    std::vector<double> u;
    std::vector<double> y_mm;
};

/// A parabola through the places; straight where they are few.
Eigen::Vector3d fitted(const StripPlaces &places) {
    Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
    Eigen::Vector3d right = Eigen::Vector3d::Zero();
    for (std::size_t i = 0; i < places.u.size(); ++i) {
        const Eigen::Vector3d terms(1.0, places.u[i], places.u[i] * places.u[i]);
        normal += terms * terms.transpose();
        right += places.y_mm[i] * terms;
    }
    normal(2, 2) += 0.5; // a bend that few places tell stays small
    return normal.ldlt().solve(right);
}

LongCurve refined(const Field &response, const Trial &trial) {
    Eigen::Vector3d curve((trial.middle + 0.5) * kStepMm, trial.slant * kStepMm,
                          trial.bend * kStepMm);
    const auto height = [&](int strip) {
        const double u = across(strip, response.width);
        return curve.dot(Eigen::Vector3d(1.0, u, u * u));
    };
    double square = 0.0;
    std::size_t count = 1;
    for (int round = 0; round < kRefineRounds; ++round) {
        StripPlaces places;
        for (int x = 0; x < response.width; ++x) {
            if (const auto place = place_in_strip(response, x, height(x))) {
                places.u.push_back(across(x, response.width));
                places.y_mm.push_back(*place);
            }
        }
        if (places.u.size() < 4) {
            break;
        }
        curve = fitted(places);
        square = 0.0;
        count = places.u.size();
        for (std::size_t i = 0; i < count; ++i) {
            const double u = places.u[i];
            square += std::pow(places.y_mm[i] - curve.dot(Eigen::Vector3d(1.0, u, u * u)), 2);
        }
    }
    LongCurve result{.line = line_of(curve), .share = 0.0};
    const auto places = static_cast<double>(count);
    result.line.uncertainty_mm = std::hypot(kPlaceUncertaintyMm, std::sqrt(3.0 * square) / places);
    for (int x = 0; x < response.width; ++x) {
        double most = -1.0;
        const int row = response.row_at(height(x));
        for (int y = std::max(0, row - 1); y <= std::min(response.height - 1, row + 1); ++y) {
            most = std::max(most, held(response.at(x, y)));
        }
        result.share += most / response.width;
    }
    return result;
}

} // namespace

std::vector<LongCurve> long_curves(const Field &response, double width_mm, double low_mm,
                                   double high_mm, double least_share) {
    const Field pool = pooled(response);
    std::vector<Trial> trials =
        best_trials(pool, width_mm, pool.row_at(low_mm), pool.row_at(high_mm));
    std::sort(trials.begin(), trials.end(),
              [](const Trial &a, const Trial &b) { return a.score > b.score; });
    std::vector<LongCurve> curves;
    for (const Trial &trial : trials) {
        if (trial.score < kFirstShare * least_share) {
            break;
        }
        const double middle_mm = (trial.middle + 0.5) * kStepMm;
        const bool known = std::any_of(curves.begin(), curves.end(), [&](const LongCurve &curve) {
            return std::abs(curve.line.middle_mm - middle_mm) < kApartMm;
        });
        if (!known) {
            curves.push_back(refined(response, trial));
        }
    }
    std::erase_if(curves, [&](const LongCurve &curve) { return curve.share < least_share; });
    std::sort(curves.begin(), curves.end(),
              [](const LongCurve &a, const LongCurve &b) { return a.share > b.share; });
    return curves;
}

} // namespace cospot::plate_photo
