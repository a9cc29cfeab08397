#pragma once

#include "shared/quantity.h"

namespace cospot::matcher {

/// Where an R_F stands: between the ends, or so near an end that it only says "this far or
/// farther".
enum class Censoring { none, at_start, at_front };

/// An R_F within this distance of 0 or 1 is censored: a spot that did not leave the start, or ran
/// with the front, shows where it stopped and not how polar it is.
inline constexpr double kCensoredMargin = 0.01;

[[nodiscard]] Censoring censoring(Quantity quantity, double value);

/// The value on the scale on which replicates scatter about equally everywhere: R_F as
/// arcsin(sqrt(R_F)) (the variance-stabilising transform of a share: bartlett1947, from memory), k,
/// RRT and r as their log10, RI and t_R as they are. R_F outside 0..1 counts as 0 or 1; a k, RRT or
/// r below 1e-3 counts as 1e-3.
[[nodiscard]] double to_model_scale(Quantity quantity, double value);
[[nodiscard]] double from_model_scale(Quantity quantity, double scaled);

/// Change of the scaled value for a unit change of the value, at `value`; turns an uncertainty of
/// the value into one on the model scale. Bounded near R_F 0 and 1, where the transform is steep.
[[nodiscard]] double scale_slope(Quantity quantity, double value);

} // namespace cospot::matcher
