#include "generated_trace.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>

namespace cospot::signal {

namespace {

/// Draws that are the same with every standard library.
class Draws {
public:
    explicit Draws(std::uint64_t seed) : engine_(seed) {}

    double uniform(double low, double high) {
        const double share = static_cast<double>(engine_() >> 11) * 0x1.0p-53;
        return low + share * (high - low);
    }
    double normal() { // Box and Muller
        const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform(0.0, 1.0)));
        return radius * std::cos(uniform(0.0, 2.0 * std::numbers::pi));
    }

private:
    std::mt19937_64 engine_;
};

std::vector<double> pink(Draws &draws, std::size_t points) {
    constexpr std::size_t kOctaves = 12;
    std::array<double, kOctaves> state{};
    for (double &value : state) {
        value = draws.normal();
    }
    std::vector<double> values(points);
    for (double &value : values) {
        value = 0.0;
        for (std::size_t k = 0; k < kOctaves; ++k) {
            const double keep = std::exp(-1.0 / std::ldexp(1.0, static_cast<int>(k)));
            state[k] = keep * state[k] + std::sqrt(1.0 - keep * keep) * draws.normal();
            value += state[k] / std::sqrt(static_cast<double>(kOctaves));
        }
    }
    return values;
}

std::vector<double> filtered(Draws &draws, std::size_t points) {
    const double keep = std::exp(-1.0 / 3.0);
    const double pass = 1.0 - keep;
    // Deviation of white noise behind two such filters.
    const double deviation =
        std::pow(pass, 2) * std::sqrt((1.0 + keep * keep) / std::pow(1.0 - keep * keep, 3));
    double first = 0.0;
    double second = 0.0;
    std::vector<double> values(points);
    for (std::size_t i = 0; i < points + 50; ++i) { // the first 50 fill the filters
        first = keep * first + pass * draws.normal();
        second = keep * second + pass * first;
        if (i >= 50) {
            values[i - 50] = second / deviation;
        }
    }
    return values;
}

std::vector<double> noise_of(Draws &draws, NoiseKind kind, std::size_t points) {
    switch (kind) {
    case NoiseKind::kPink:
        return pink(draws, points);
    case NoiseKind::kFiltered:
        return filtered(draws, points);
    case NoiseKind::kWhite:
        break;
    }
    std::vector<double> values(points);
    for (double &value : values) {
        value = draws.normal();
    }
    return values;
}

std::vector<ExponentialGaussian> peaks_of(Draws &draws, const TraceRecipe &recipe) {
    std::vector<ExponentialGaussian> peaks;
    const double unit = recipe.noise > 0.0 ? recipe.noise : 1.0;
    const double length = static_cast<double>(recipe.points) * recipe.step;
    for (std::size_t k = 0; k < recipe.peaks; ++k) {
        const double place = draws.uniform(0.04, 0.94);
        const double width =
            recipe.narrowest_points + place * (recipe.widest_points - recipe.narrowest_points);
        const double sigma = 0.42 * width * recipe.step * draws.uniform(0.85, 1.15);
        const double ratio =
            std::exp(draws.uniform(std::log(recipe.least_ratio), std::log(recipe.most_ratio)));
        peaks.push_back(of_height({.area = 1.0,
                                   .mean = place * length,
                                   .sigma = sigma,
                                   .tau = draws.uniform(0.0, recipe.most_tailing) * sigma},
                                  ratio * unit));
    }
    std::sort(peaks.begin(), peaks.end(),
              [](const auto &a, const auto &b) { return apex_of(a) < apex_of(b); });
    return peaks;
}

void add_spikes(Draws &draws, const TraceRecipe &recipe, std::vector<double> &y) {
    for (std::size_t k = 0; k < recipe.spikes; ++k) {
        const auto at =
            static_cast<std::size_t>(draws.uniform(5.0, static_cast<double>(recipe.points) - 5.0));
        const double sign = draws.uniform(-1.0, 1.0) < 0.0 ? -1.0 : 1.0;
        y[at] += sign * draws.uniform(50.0, 500.0) * recipe.noise;
    }
}

/// Dips as the solvent of a sample makes them: upside down peaks.
void add_dips(Draws &draws, const TraceRecipe &recipe, GeneratedTrace &trace) {
    for (std::size_t k = 0; k < recipe.dips; ++k) {
        const double sigma = 0.42 * recipe.narrowest_points * recipe.step;
        const ExponentialGaussian dip =
            of_height({.area = 1.0,
                       .mean = draws.uniform(0.04, 0.94) * trace.x.back(),
                       .sigma = sigma,
                       .tau = 0.0},
                      draws.uniform(20.0, 200.0) * recipe.noise);
        for (std::size_t i = 0; i < trace.x.size(); ++i) {
            trace.y[i] -= height_at(dip, trace.x[i]);
        }
    }
}

} // namespace

ExponentialGaussian of_height(ExponentialGaussian peak, double height) {
    peak.area *= height / height_at(peak, apex_of(peak));
    return peak;
}

GeneratedTrace drawn(const std::vector<ExponentialGaussian> &peaks, double first, double step,
                     std::size_t points) {
    GeneratedTrace trace;
    trace.peaks = peaks;
    for (std::size_t i = 0; i < points; ++i) {
        trace.x.push_back(first + step * static_cast<double>(i));
        trace.y.push_back(0.0);
        for (const ExponentialGaussian &peak : peaks) {
            trace.y.back() += height_at(peak, trace.x.back());
        }
    }
    return trace;
}

GeneratedTrace generated(const TraceRecipe &recipe) {
    Draws draws(recipe.seed);
    GeneratedTrace trace;
    trace.peaks = peaks_of(draws, recipe);
    const std::vector<double> noise = noise_of(draws, recipe.kind, recipe.points);
    const double length = static_cast<double>(recipe.points) * recipe.step;
    const double slope = draws.uniform(-1.0, 1.0) * recipe.drift / length;
    const double wave = draws.uniform(0.0, 0.5) * recipe.drift;
    const double period = draws.uniform(0.8, 2.0) * length;
    const double phase = draws.uniform(0.0, 2.0 * std::numbers::pi);
    double x = 0.0;
    for (std::size_t i = 0; i < recipe.points; ++i) {
        trace.x.push_back(x);
        double y = recipe.noise * noise[i] + slope * x +
                   wave * std::sin(2.0 * std::numbers::pi * x / period + phase);
        for (const ExponentialGaussian &peak : trace.peaks) {
            y += height_at(peak, x);
        }
        trace.y.push_back(y);
        x += recipe.step * (recipe.uneven ? draws.uniform(2.0 / 3.0, 4.0 / 3.0) : 1.0);
    }
    add_dips(draws, recipe, trace);
    add_spikes(draws, recipe, trace.y);
    if (recipe.saturated_at) {
        for (double &value : trace.y) {
            value = std::min(value, *recipe.saturated_at);
        }
    }
    return trace;
}

} // namespace cospot::signal
