#include "plate_photo/edge_lines.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace cospot::plate_photo {

namespace {

constexpr double kSteepest = 0.72;
constexpr double kSlopeStepPx = 1.5; ///< by which the ends of two neighbouring lines differ
constexpr double kApartPx = 2.0;     ///< lines closer than this are one
constexpr int kStepDistance = 4;     ///< from the line to the middles of the squares beside it
constexpr double kStepVisible = 0.7;
constexpr double kStepStrongest = 0.4;

/// A line by where it crosses the middle row, and its best stretch.
struct LineTrial {
    double middle = 0.0;
    double slope = 0.0;
    double evidence = 0.0;
    int first_row = 0;
    int last_row = 0;
};

double x_at(const LineTrial &line, double y, int height) {
    return line.middle + line.slope * (y - 0.5 * height);
}

/// Of all lines of one slope, by the pixel in which they cross the middle row.
std::vector<float> best_stretches(const EdgeEvidence &evidence, double slope) {
    const auto &ratios = evidence.log_ratios[nearest_slope(slope)];
    std::vector<float> running(static_cast<std::size_t>(evidence.width));
    std::vector<float> best(running.size());
    for (int y = 0; y < evidence.height; ++y) {
        const int shift = static_cast<int>(std::lround(slope * (y + 0.5 - 0.5 * evidence.height)));
        const int begin = std::max(0, -shift);
        const int end = std::min(evidence.width, evidence.width - shift);
        const float *row = &ratios[static_cast<std::size_t>(y) * running.size()];
        for (int x = begin; x < end; ++x) {
            const auto i = static_cast<std::size_t>(x);
            running[i] = std::max(running[i] + row[x + shift], 0.0F);
            best[i] = std::max(best[i], running[i]);
        }
    }
    return best;
}

/// All lines that are no worse than their eight neighbours in place and slope, the best first.
std::vector<LineTrial> best_line_trials(const EdgeEvidence &evidence) {
    const double step = 2.0 * kSlopeStepPx / evidence.height;
    const int steps = static_cast<int>(kSteepest / step);
    std::vector<std::vector<float>> scores;
    for (int i = -steps; i <= steps; ++i) {
        scores.push_back(best_stretches(evidence, i * step));
    }
    std::vector<LineTrial> trials;
    const auto width = static_cast<std::size_t>(evidence.width);
    for (std::size_t i = 1; i + 1 < scores.size(); ++i) {
        for (std::size_t x = 1; x + 1 < width; ++x) {
            float around = 0.0F;
            for (const std::size_t row : {i - 1, i, i + 1}) {
                around = std::max({around, scores[row][x - 1], scores[row][x], scores[row][x + 1]});
            }
            if (around > 0.0F && scores[i][x] >= around) {
                trials.push_back({static_cast<double>(x) + 0.5,
                                  (static_cast<int>(i) - steps) * step, scores[i][x], 0, 0});
            }
        }
    }
    std::stable_sort(trials.begin(), trials.end(), [](const LineTrial &a, const LineTrial &b) {
        return a.evidence > b.evidence;
    });
    return trials;
}

/// Evidence of each row; 0 outside of the photo.
std::vector<double> evidence_along(const EdgeEvidence &evidence, const LineTrial &line) {
    const auto &ratios = evidence.log_ratios[nearest_slope(line.slope)];
    std::vector<double> along(static_cast<std::size_t>(evidence.height));
    for (int y = 0; y < evidence.height; ++y) {
        const int x = static_cast<int>(std::floor(x_at(line, y + 0.5, evidence.height)));
        if (x >= 0 && x < evidence.width) {
            const auto row = static_cast<std::size_t>(y);
            along[row] = ratios[row * static_cast<std::size_t>(evidence.width) +
                                static_cast<std::size_t>(x)];
        }
    }
    return along;
}

void set_best_stretch(LineTrial &line, const std::vector<double> &along) {
    double sum = 0.0;
    double best = 0.0;
    int begin = 0;
    for (int y = 0; y < std::ssize(along); ++y) {
        sum += along[static_cast<std::size_t>(y)];
        if (sum <= 0.0) {
            sum = 0.0;
            begin = y + 1;
        } else if (sum > best) {
            best = sum;
            line.first_row = begin;
            line.last_row = y;
        }
    }
}

/// Whether the best stretch of `line` lies on that of `other`.
bool covered(const LineTrial &line, const LineTrial &other, int height) {
    const auto beside = [&](int row) {
        return std::abs(x_at(line, row, height) - x_at(other, row, height)) < kApartPx;
    };
    const int slack = (other.last_row - other.first_row) / 5;
    return line.first_row >= other.first_row - slack && line.last_row <= other.last_row + slack &&
           beside(line.first_row) && beside(line.last_row);
}

/// How the colours of the squares to both sides of a place differ, squared; `smooth` holds means.
class Steps {
public:
    explicit Steps(const ReducedPhoto &smooth) : smooth_(smooth) {}

    [[nodiscard]] float at(double x, double y, double slope) const {
        const double norm = kStepDistance / std::hypot(1.0, slope);
        const std::size_t right = index(x + norm, y - slope * norm);
        const std::size_t left = index(x - norm, y + slope * norm);
        float sum = 0.0F;
        for (const auto &plane : smooth_.planes) {
            const float change = plane[right] - plane[left];
            sum += change * change;
        }
        return sum;
    }

    /// Of places all over the photo.
    [[nodiscard]] ChangeScale scale() const {
        ChangeScale scale(kStepVisible, kStepStrongest);
        for (int y = kStepDistance; y < smooth_.height - kStepDistance; y += 3) {
            for (int x = kStepDistance; x < smooth_.width - kStepDistance; x += 3) {
                for (const double slope : {-0.3, 0.0, 0.3}) {
                    scale.add(at(x, y, slope));
                }
            }
        }
        scale.finish();
        return scale;
    }

private:
    [[nodiscard]] std::size_t index(double x, double y) const {
        return smooth_.at(std::clamp(static_cast<int>(x), 0, smooth_.width - 1),
                          std::clamp(static_cast<int>(y), 0, smooth_.height - 1));
    }
    const ReducedPhoto &smooth_;
};

std::vector<double> sums_of(const std::vector<double> &values) {
    std::vector<double> sums(values.size() + 1);
    std::partial_sum(values.begin(), values.end(), sums.begin() + 1);
    return sums;
}

} // namespace

std::vector<EdgeLine> edge_lines(const ReducedPhoto &photo, std::size_t most) {
    const EdgeEvidence evidence = edge_evidence(photo);
    const ReducedPhoto smooth = smoothed(photo, 2);
    const Steps steps(smooth);
    const ChangeScale step_scale = steps.scale();
    std::vector<LineTrial> kept;
    std::vector<EdgeLine> lines;
    for (LineTrial trial : best_line_trials(evidence)) {
        if (lines.size() == most) {
            break;
        }
        const auto along = evidence_along(evidence, trial);
        set_best_stretch(trial, along);
        if (std::any_of(kept.begin(), kept.end(), [&](const LineTrial &other) {
                return covered(trial, other, photo.height);
            })) {
            continue;
        }
        kept.push_back(trial);
        std::vector<double> step_evidence(along.size());
        for (int y = 0; y < photo.height; ++y) {
            const double x = x_at(trial, y + 0.5, photo.height);
            step_evidence[static_cast<std::size_t>(y)] =
                step_scale.log_ratio(steps.at(x, y + 0.5, trial.slope));
        }
        lines.push_back(
            {x_at(trial, 0.0, photo.height), trial.slope, sums_of(along), sums_of(step_evidence)});
    }
    return lines;
}

} // namespace cospot::plate_photo
