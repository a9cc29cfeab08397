#pragma once

#include "quantities/linear_solvent_strength.h"
#include "quantities/stationary_phase.h"
#include "resolve/resolution_curve.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot::resolve {

/// By how much a fraction mixed by hand, or by a worn pump, may be off. Common practice, no source.
inline constexpr double kMixingError = 0.01;

/// The retention factor that one compound is wanted to have.
struct WantedRetention {
    std::string compound;
    double k = 0.0;
};

/// What is asked about a mixture.
struct Question {
    std::vector<MeasuredCompound> compounds; ///< one or more, under different names
    quantities::LiquidPhase phase = quantities::LiquidPhase::reversed;
    double plate_number = 0.0;
    RetentionWindow window;
    double resolution = 1.5; ///< enough of it
    bool extrapolate = false;
    std::optional<WantedRetention> wanted;
    std::optional<quantities::LinearGradient> gradient;
};

/// A fraction for a wanted k.
struct FoundFraction {
    std::size_t compound = 0;
    double k = 0.0;
    std::optional<double> fraction;        ///< none outside the range that may be answered for
    std::optional<FractionRange> interval; ///< holds it in nine of ten cases, by the scatter
    bool is_outside_measured = false;
};

/// A compound in the gradient asked about.
struct GradientAnswer {
    std::optional<quantities::GradientRetention> retention; ///< none: `fraction` is out of range
    double fraction = 0.0;                                  ///< at which it leaves
    bool is_outside_measured = false;
};

/// All that follows from the lines.
struct Choice {
    std::vector<RetentionLine> lines;     ///< in the order of the compounds
    std::optional<Scatter> scatter;       ///< not known from two readings a compound
    FractionRange measured;               ///< where all compounds were measured
    FractionRange range;                  ///< what is answered for: with the margin
    std::vector<CurvePoint> curve;        ///< over `range`
    std::size_t best = 0;                 ///< position in the curve
    double off_best = 0.0;                ///< least resolution within `kMixingError` of the best
    std::optional<std::size_t> fastest;   ///< with resolution enough; position in the curve
    std::optional<std::size_t> unlimited; ///< better than `best`, but k leaves the window
    std::vector<Crossing> crossings;      ///< within `range`
    std::optional<FoundFraction> wanted;
    std::vector<GradientAnswer> gradient; ///< in the order of the compounds; empty: not asked
    std::vector<std::string> warnings;
};

/// How far beyond the measured fractions is answered for: a tenth of the measured span at either
/// side, but no more than 0.05. Our own choice: the law is a straight line only in the middle.
[[nodiscard]] FractionRange with_margin(const FractionRange &measured);

/// Answers the question. The best fraction is the one with the highest resolution of the critical
/// pair among those that keep every k in the window. Where none does, it is the one with resolution
/// enough at which k leaves the window least; where none has that, the one with the highest
/// resolution. The fastest one is that at which the last compound leaves earliest while resolution
/// is enough and every k in the window. Throws InputError where the compounds share no fraction,
/// and for a wanted compound that is not among them.
[[nodiscard]] Choice choose(const Question &question);

/// Whether all was found that was asked for: enough resolution with every k in the window, the
/// wanted k, every compound in the gradient.
[[nodiscard]] bool is_answered(const Question &question, const Choice &choice);

} // namespace cospot::resolve
