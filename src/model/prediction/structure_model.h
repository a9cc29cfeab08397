#pragma once

#include "model/prediction/calibration.h"
#include "model/prediction/curve_model.h"
#include "model/prediction/curve_search.h"
#include "model/prediction/retention_table.h"

#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

namespace cospot::prediction {

/// With fewer compounds measured nothing is predicted from structure.
inline constexpr std::size_t kFewestCompounds = 30;

/// Values that are possible on the scale of a table.
struct Range {
    double low = -std::numeric_limits<double>::infinity();
    double high = std::numeric_limits<double>::infinity();
};

/// Retention from structure, on one system (a table with one mixture) or over all mixtures of a
/// technique at once. Intervals are calibrated on the compounds of the table, each left out whole,
/// and for each mixture by itself as far as its values go; away from the training structures the
/// process widens them. A value that stands at an end of the range (R_F 0 or 1) counts as met by a
/// prediction beyond it.
struct StructureModel {
    std::vector<CompoundFeatures> compounds; ///< training structures
    DescriptorScale scale;
    CurveModel curves;
    Range range;
    std::vector<Calibration> calibrations; ///< of the mixtures
};

/// What takes long in a fit: the parameters, which are searched, and the calibrations, for which
/// each compound is left out. With it the same model of the same table is there again in a moment.
struct StructureFit {
    CurveParameters parameters;
    std::vector<Calibration> calibrations; ///< of the mixtures
};

[[nodiscard]] StructureFit fit_of(const StructureModel &model);

/// The model of `table` that had this fit. Cost: that of `CurveModel`.
[[nodiscard]] StructureModel structure_model_from(const RetentionTable &table, const Range &range,
                                                  const StructureFit &fit);

/// Fits with parameters found by `search_parameters`. Nothing below `kFewestCompounds` compounds.
/// Cost: that of `CurveModel` and of the search.
[[nodiscard]] std::optional<StructureModel> fit_structure_model(const RetentionTable &table,
                                                                const Range &range = {});

/// As above with given parameters.
[[nodiscard]] std::optional<StructureModel> fit_structure_model(const RetentionTable &table,
                                                                const Range &range,
                                                                const CurveParameters &parameters);

/// The curve of a compound by its structure alone; it must not be among the training structures.
[[nodiscard]] Curve curve_from_structure(const StructureModel &model,
                                         const CompoundFeatures &compound);

/// What is expected of a compound in each mixture of the table, on the scale of its values. It must
/// not be among the training structures.
[[nodiscard]] std::vector<Prediction> predict_retention(const StructureModel &model,
                                                        const CompoundFeatures &compound);

} // namespace cospot::prediction
