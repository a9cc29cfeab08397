#pragma once

#include "signal/emg.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace cospot::signal {

/// How noise of deviation 1 goes on from point to point.
enum class NoiseKind {
    kWhite,
    kPink,    ///< as much in each octave, of 2 to 4096 points
    kFiltered ///< white behind two low-pass filters of 3 points each, as instruments have
};

/// What a trace of the generator holds besides its peaks. All is drawn from `seed` alone.
struct TraceRecipe {
    std::uint64_t seed = 1;
    std::size_t points = 4000;
    double step = 0.1;
    std::size_t peaks = 0;
    double narrowest_points = 12.0; ///< sigma of the peaks goes from 0.42 of this ...
    double widest_points = 40.0;    ///< ... to 0.42 of this, later peaks being wider
    double least_ratio = 5.0;       ///< heights over the noise, evenly in their logarithms
    double most_ratio = 500.0;
    double most_tailing = 2.0; ///< tau over sigma, from 0
    double noise = 1.0;        ///< deviation; 0 for none
    NoiseKind kind = NoiseKind::kWhite;
    double drift = 100.0; ///< size of its slope and of its slow wave
    std::size_t spikes = 0;
    std::size_t dips = 0;
    bool uneven = false;                ///< steps of the axis differ by up to a third
    std::optional<double> saturated_at; ///< of the signal
};

struct GeneratedTrace {
    std::vector<double> x, y;
    std::vector<ExponentialGaussian> peaks; ///< by apex
};

[[nodiscard]] GeneratedTrace generated(const TraceRecipe &recipe);

/// These peaks on the axis from `first` on, without noise and drift.
[[nodiscard]] GeneratedTrace drawn(const std::vector<ExponentialGaussian> &peaks, double first,
                                   double step, std::size_t points);

/// A peak of this greatest height.
[[nodiscard]] ExponentialGaussian of_height(ExponentialGaussian peak, double height);

} // namespace cospot::signal
