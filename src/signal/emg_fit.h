#pragma once

#include "signal/emg.h"
#include "signal/found_peak.h"

#include <cstddef>
#include <span>
#include <vector>

namespace cospot::signal {

/// Why a group was not fitted; its peaks keep their areas by perpendicular drop.
enum class FitOutcome {
    kFitted,
    kTooManyPeaks, ///< more than kMostFitted
    kTooFewPoints, ///< fewer than four a peak and one more
    kSaturated,    ///< or cut off: the model does not hold
    kOutOfBounds,  ///< a place, width or tailing ran to its bound: peaks are not told apart
    kMisfit        ///< what is left is more than noise and 3 % of the highest peak
};

/// Groups of more peaks are left as they are.
inline constexpr std::size_t kMostFitted = 6;

/// Peaks that share borders, from `first` on, as a sum of exponentially modified Gaussians.
struct GroupFit {
    std::size_t first = 0; ///< of FoundPeaks::peaks
    std::size_t count = 0;
    FitOutcome outcome = FitOutcome::kFitted;
    std::vector<ExponentialGaussian> peaks{}; ///< empty unless fitted
    double residual = 0.0; ///< root mean square of what is left, in units of the signal
};

/// Fits every group of two or more peaks that share borders by least squares (Levenberg and
/// Marquardt: marquardt1963, from memory). Each place stays within a half width of its apex (a
/// whole one for shoulders), sigma within a third and three times what the half width says, tau
/// below five sigma. `x` and `y` are the trace in which the peaks were found; errors as find_peaks.
[[nodiscard]] std::vector<GroupFit> fit_groups(const FoundPeaks &found, std::span<const double> x,
                                               std::span<const double> y);

/// The peaks with apex, height, half width and area of the fits; those of groups that were not
/// fitted as they are.
[[nodiscard]] FoundPeaks with_fits(FoundPeaks found, const std::vector<GroupFit> &fits);

} // namespace cospot::signal
