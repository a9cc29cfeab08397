#pragma once

#include "prediction/calibration.h"
#include "prediction/structure_model.h"

#include <cstddef>
#include <vector>

namespace cospot::prediction {

/// A value of the compound itself, on the scale of the table.
struct OwnValue {
    std::size_t mixture = 0;
    double value = 0.0;
};

/// Retention of a compound in every mixture of the table given its own values in some of them: its
/// curve by structure, drawn to those values. Use it where too few compounds were measured in the
/// same mixtures for `fit_neighbours`, or in a mixture without values. Curves are pooled over all
/// compounds of the table.
struct CompositionCurves {
    const StructureModel *model = nullptr; ///< not owned
    Calibration calibration;               ///< of curves drawn to the two nearest values
};

/// `model` should be fitted with `SearchGoal::own_curves`; one fitted for unseen compounds takes
/// what a compound shows itself for scatter and misses by up to three times as much. The model must
/// outlive the result. Calibrates on the compounds of the model: each value of a compound left out
/// of the structure model from its two values in the most similar other mixtures.
[[nodiscard]] CompositionCurves fit_composition_curves(const StructureModel &model);

/// What is expected in each mixture of a compound whose curve without its own values is `free`.
/// `own` must not be empty.
[[nodiscard]] std::vector<Prediction> predict_curve_through(const CompositionCurves &curves,
                                                            const Curve &free,
                                                            const std::vector<OwnValue> &own);

/// The same for a compound that is not among those of the model.
[[nodiscard]] std::vector<Prediction> predict_curve_through(const CompositionCurves &curves,
                                                            const CompoundFeatures &compound,
                                                            const std::vector<OwnValue> &own);

} // namespace cospot::prediction
