#include "signal/baseline.h"

#include "shared/robust.h"
#include "signal/penalised_smoother.h"

#include <algorithm>
#include <cmath>

namespace cospot::signal {

namespace {

constexpr int kArplsRounds = 50;
constexpr double kArplsChange = 0.005; ///< of the weights, in the round that ends it
constexpr double kDipDeviations = 6.0;
constexpr double kLeastFreeShare = 0.05;
constexpr double kPointsPerNarrowest = 4.0;

/// Means of neighbouring points; `weight` is the share of them that counts.
struct Bins {
    std::size_t size = 1; ///< points in each
    std::vector<double> x, y, weight;
};

Bins bins_of(std::span<const double> x, std::span<const double> y, std::span<const double> weights,
             double narrowest) {
    const double width = narrowest / kPointsPerNarrowest / mean_step(x);
    const std::size_t most = std::max<std::size_t>(1, x.size() / 16);
    const std::size_t size = std::clamp<std::size_t>(static_cast<std::size_t>(width), 1, most);
    Bins bins;
    bins.size = size;
    for (std::size_t begin = 0; begin < x.size(); begin += size) {
        const std::size_t end = std::min(begin + size, x.size());
        double sum_x = 0.0;
        double sum_y = 0.0;
        double sum_w = 0.0;
        double all_y = 0.0;
        for (std::size_t i = begin; i < end; ++i) {
            sum_x += x[i];
            all_y += y[i];
            sum_y += weights[i] * y[i];
            sum_w += weights[i];
        }
        const auto count = static_cast<double>(end - begin);
        bins.x.push_back(sum_x / count);
        bins.y.push_back(sum_w > 0.0 ? sum_y / sum_w : all_y / count);
        bins.weight.push_back(sum_w / count);
    }
    return bins;
}

/// The lines between the middles of the bins, and on beyond the first and the last.
std::vector<double> drawn_over(std::span<const double> x, const Bins &bins,
                               const std::vector<double> &values) {
    std::vector<double> curve(x.size());
    std::size_t j = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        while (j + 2 < bins.x.size() && x[i] > bins.x[j + 1]) {
            ++j;
        }
        const double share = (x[i] - bins.x[j]) / (bins.x[j + 1] - bins.x[j]);
        curve[i] = values[j] + share * (values[j + 1] - values[j]);
    }
    return curve;
}

/// Mean and deviation of what lies below the curve, dips left out.
struct Below {
    double mean = 0.0;
    double deviation = 0.0;
};

Below below_of(const std::vector<double> &above, const std::vector<double> &kept) {
    double sum = 0.0;
    double squares = 0.0;
    double count = 0.0;
    for (std::size_t i = 0; i < above.size(); ++i) {
        if (above[i] < 0.0 && kept[i] > 0.0) {
            sum += above[i];
            squares += above[i] * above[i];
            count += 1.0;
        }
    }
    if (count < 2.0) {
        return {};
    }
    const double mean = sum / count;
    return {mean, std::sqrt(std::max(0.0, squares / count - mean * mean))};
}

double arpls_weight(double above, const Below &below) {
    const double power = 2.0 * (above - (2.0 * below.deviation - below.mean)) / below.deviation;
    if (power > 40.0) {
        return 0.0;
    }
    return power < -40.0 ? 1.0 : 1.0 / (1.0 + std::exp(power));
}

/// Rounds of reweighting until the weights stand; `kept` is 0 for what is left out, else 1.
void reweight(PenalisedSmoother &smoother, const Bins &bins, const std::vector<double> &kept,
              std::vector<double> &weights, std::vector<double> &curve) {
    std::vector<double> above(bins.y.size());
    for (int round = 0; round < kArplsRounds; ++round) {
        curve = smoother.smooth(bins.y, weights);
        for (std::size_t i = 0; i < above.size(); ++i) {
            above[i] = bins.y[i] - curve[i];
        }
        const Below below = below_of(above, kept);
        if (below.deviation <= 0.0) {
            return;
        }
        double change = 0.0;
        double size = 0.0;
        for (std::size_t i = 0; i < above.size(); ++i) {
            const double weight = kept[i] * arpls_weight(above[i], below);
            change += (weight - weights[i]) * (weight - weights[i]);
            size += weights[i] * weights[i];
            weights[i] = weight;
        }
        if (change < kArplsChange * kArplsChange * size) {
            return;
        }
    }
}

/// Leaves out what lies far below the curve; false where nothing does.
bool drop_dips(const Bins &bins, const std::vector<double> &curve, std::vector<double> &kept) {
    std::vector<double> depths;
    for (std::size_t i = 0; i < curve.size(); ++i) {
        if (bins.y[i] < curve[i]) {
            depths.push_back(bins.y[i] - curve[i]);
        }
    }
    if (depths.empty()) {
        return false;
    }
    const double least = kDipDeviations * deviation_about_zero(std::move(depths));
    bool any = false;
    for (std::size_t i = 0; i < curve.size(); ++i) {
        if (curve[i] - bins.y[i] > least) {
            kept[i] = 0.0;
            any = true;
        }
    }
    return any;
}

} // namespace

std::vector<double> arpls_baseline(std::span<const double> x, std::span<const double> y,
                                   double period, double narrowest) {
    const Bins bins = bins_of(x, y, std::vector<double>(x.size(), 1.0), narrowest);
    PenalisedSmoother smoother(bins.x, period);
    std::vector<double> kept(bins.y.size(), 1.0);
    std::vector<double> weights = kept;
    std::vector<double> curve;
    reweight(smoother, bins, kept, weights, curve);
    if (drop_dips(bins, curve, kept)) {
        reweight(smoother, bins, kept, weights, curve);
    }
    return drawn_over(x, bins, curve);
}

std::vector<double> baseline_between_peaks(std::span<const double> x, std::span<const double> y,
                                           std::span<const double> free,
                                           std::span<const double> periods, double narrowest,
                                           std::vector<double> fallback) {
    const Bins bins = bins_of(x, y, free, narrowest);
    const auto in_use = std::count_if(bins.weight.begin(), bins.weight.end(),
                                      [](double weight) { return weight > 0.0; });
    if (static_cast<double>(in_use) < kLeastFreeShare * static_cast<double>(bins.x.size()) ||
        in_use < 4) {
        return fallback;
    }
    std::vector<double> of_bins;
    for (std::size_t i = 0; i < x.size(); i += bins.size) {
        of_bins.push_back(periods[std::min(i + bins.size / 2, x.size() - 1)]);
    }
    return drawn_over(x, bins, PenalisedSmoother(bins.x, of_bins).smooth(bins.y, bins.weight));
}

} // namespace cospot::signal
