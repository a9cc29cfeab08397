#pragma once

#include <span>

namespace cospot::signal {

/// The widths at half height of the narrowest and the widest peaks of a trace, in units of the
/// axis.
struct Scales {
    double narrowest = 0.0;
    double widest = 0.0;
    bool seen = false; ///< false: no peak is clear, and the widths are shares of the trace
};

/// Reads the widths off the trace itself, without a baseline: it is smoothed with periods of 4
/// points and on, each twice the last; a maximum that stands out from both of its valleys, about
/// as far from one as from the other, by twelve deviations of the noise that each period leaves,
/// has its width at half of that height. Of these the lower decile counts as the narrowest and the
/// largest as the widest. What is wider than an eighth of the trace, or than three times the
/// median, counts as drift.
[[nodiscard]] Scales find_scales(std::span<const double> x, std::span<const double> y);

} // namespace cospot::signal
