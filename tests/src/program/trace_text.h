#pragma once

#include "signal/emg.h"

#include <fmt/format.h>

#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace cospot {

/// A peak of a made trace; times in min, area in signal times s.
struct MadePeak {
    double apex_min = 0.0;
    double area = 0.0;
};

/// A trace as text, "time (min)" and "signal (pA)": exponentially modified Gaussians of one width
/// on a slowly rising baseline, with white noise of deviation 1.
inline std::string trace_text(const std::vector<MadePeak> &peaks, double last_min,
                              double step_min = 0.005, std::uint64_t seed = 1) {
    constexpr double sigma = 0.03;
    constexpr double tau = 0.015;
    constexpr double seconds = 60.0;
    const double apex_behind_mean = signal::apex_of({1.0, 0.0, sigma, tau});
    std::mt19937_64 random(seed);
    std::normal_distribution<double> noise(0.0, 1.0);
    std::string text = "time (min)\tsignal (pA)\n";
    for (double time = 0.0; time <= last_min; time += step_min) {
        double value = 50.0 + 2.0 * time + noise(random);
        for (const MadePeak &peak : peaks) {
            const signal::ExponentialGaussian made{peak.area / seconds,
                                                   peak.apex_min - apex_behind_mean, sigma, tau};
            value += signal::height_at(made, time);
        }
        text += fmt::format("{:.4f}\t{:.3f}\n", time, value);
    }
    return text;
}

} // namespace cospot
