#pragma once

namespace cospot::signal {

/// A Gaussian peak convolved with an exponential decay: the usual model of a tailing peak. It lies
/// on the axis of the trace.
struct ExponentialGaussian {
    double area = 1.0;
    double mean = 0.0;  ///< of the Gaussian
    double sigma = 1.0; ///< of the Gaussian, above 0
    double tau = 0.0;   ///< of the decay, 0 or more; 0 is a Gaussian
};

/// Scaled complementary error function, exp(z^2) erfc(z), of z at or above 0, to 1e-12 of itself.
[[nodiscard]] double scaled_erfc(double z);

/// The height of the peak at `x`. Of three equal forms it takes the one that neither overflows nor
/// loses digits there: kalambet2011, from memory.
[[nodiscard]] double height_at(const ExponentialGaussian &peak, double x);

/// Slope at `x`: tau f' + f is the Gaussian.
[[nodiscard]] double slope_at(const ExponentialGaussian &peak, double x);

/// Where the peak is highest: where it meets its Gaussian, between `mean` and `mean + tau`.
[[nodiscard]] double apex_of(const ExponentialGaussian &peak);

/// Where the peak has fallen to `share` (above 0, below 1) of its greatest height, before and after
/// the apex.
struct Crossings {
    double before = 0.0;
    double after = 0.0;
};
[[nodiscard]] Crossings crossings_of(const ExponentialGaussian &peak, double share);

/// Width at half height.
[[nodiscard]] double half_width_of(const ExponentialGaussian &peak);

} // namespace cospot::signal
