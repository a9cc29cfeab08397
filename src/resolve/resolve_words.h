#pragma once

#include "resolve/answer.h"
#include "shared/quantity.h"

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <vector>

namespace cospot {

// The sentences of `resolve`, in its document and its JSON alike.

inline constexpr std::string_view kLeavesTooFar =
    "leaves too far outside its measured fractions; measure nearer, or --extrapolate";

/// A retention factor with the digits that it deserves, also far outside a good run.
[[nodiscard]] inline std::string k_text(double k) {
    return k < 0.1 || k >= 1000.0 ? fmt::format("{:.2g}", k) : shown(Quantity::k, k);
}

/// "a / b" in alphabetic order: one name for a pair, whichever leaves first.
[[nodiscard]] std::string pair_words(const resolve::Answer &answer, const resolve::Pair &pair);

/// "fraction 0.300 (30.0 % methanol): resolution 2.10 of a / b". Two compounds or more.
[[nodiscard]] std::string run_words(const resolve::Answer &answer,
                                    const resolve::CurvePoint &point);

/// What the best composition does not do of what was asked for; empty if nothing.
[[nodiscard]] std::vector<std::string> shortfalls(const resolve::Answer &answer);

/// How much the best composition depends on mixing, and what others would do.
[[nodiscard]] std::vector<std::string> remarks_on_best(const resolve::Answer &answer);

/// The fraction for a wanted k, which must have been asked for.
[[nodiscard]] std::string wanted_words(const resolve::Answer &answer);

/// The gradient, which must have been asked for.
[[nodiscard]] std::string gradient_words(const resolve::Answer &answer);

/// When in the gradient a compound leaves; empty where it is not told.
[[nodiscard]] std::string_view stage_words(const resolve::GradientAnswer &one);

/// Which fractions are answered for, and whether the spread is known.
[[nodiscard]] std::vector<std::string> basis_words(const resolve::Answer &answer);

} // namespace cospot
