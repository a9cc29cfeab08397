#pragma once

#include "quantities/ladder.h"
#include "quantities/retention_index.h"
#include "readers/chromatogram_table.h"
#include "readers/feature.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// How the times of a chromatogram are to be turned into a quantity.
struct ChromatogramReading {
    std::string sample;
    std::string system;
    std::optional<quantities::Ladder> ladder; ///< then the quantity is RI
    quantities::IndexLaw law = quantities::IndexLaw::linear;
    std::optional<double> hold_up_min; ///< without a ladder the quantity is k, with neither t_R
    bool hold_up_is_estimated = false; ///< from the ladder; then an earlier peak is no input error
    bool extrapolate = false;          ///< give indices outside the ladder, marked
    /// RRT, or r where the hold-up time is known: without a ladder the quantity is this one.
    std::optional<Quantity> relative;
    std::optional<std::size_t> reference; ///< index of the reference compound's peak
    double time_error_min = 0.005;        ///< standard uncertainty of a retention time
};

/// Turns peaks into features with RI, RRT, r, k or t_R and its uncertainty. A peak that gets no
/// index or ratio says why in its warnings. Throws InputError for a peak before a hold-up time that
/// the user gave, and for a reference that is not retained where r counts from it.
[[nodiscard]] FeatureSet chromatogram_features(const std::vector<Peak> &peaks,
                                               const ChromatogramReading &reading,
                                               const std::string &file);

} // namespace cospot
