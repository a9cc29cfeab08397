#pragma once

#include "prediction/calibration.h"
#include "prediction/gaussian_process.h"
#include "prediction/retention_table.h"
#include "prediction/structure_model.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace cospot::prediction {

/// With fewer compounds measured in all the mixtures nothing is read across.
inline constexpr std::size_t kFewestCommonCompounds = 25;

/// Retention of a compound in one mixture from its values in others, learned from the compounds
/// that were measured in all of them: a quadratic trend in the known values, and a Gaussian process
/// over those values and the structures for what the trend leaves. Values far off count less
/// (Student t noise, by reweighting). Give it R_F itself (not its arcsine) and log10 k: on R_F the
/// trend between neighbouring eluents is closer to quadratic.
struct NeighbourRegression {
    std::vector<std::size_t> known; ///< mixtures that the compound was measured in
    std::vector<CompoundFeatures> compounds;
    DescriptorScale scale;
    Eigen::VectorXd known_mean;
    Eigen::VectorXd known_deviation;
    double mean = 0.0;            ///< of the target
    double deviation = 1.0;       ///< of the target
    Eigen::MatrixXd known_values; ///< compounds x known, centred, in standard deviations
    double noise = 0.01;          ///< variance of the target around the curve, of its variance
    GaussianProcess process;
    Eigen::VectorXd squared_residuals; ///< left out, in variances of the process, bounded
    Range range;
    Range beyond; ///< how far targets went below the lowest and above the highest known value
    Calibration calibration;
};

/// Fits to the compounds of `table` that have a value in `target` and in all `known` mixtures
/// (replicates averaged); nothing where fewer than `kFewestCommonCompounds` do. Cost: five times
/// n^3 of the common compounds, 0.1 s for 300.
[[nodiscard]] std::optional<NeighbourRegression>
fit_neighbours(const RetentionTable &table, const std::vector<std::size_t> &known,
               std::size_t target, const Range &range = {});

/// What is expected of a compound whose values in the known mixtures are `values`. The interval
/// follows how well compounds with similar values were met, and widens away from the compounds.
[[nodiscard]] Prediction predict_from_neighbours(const NeighbourRegression &regression,
                                                 const CompoundFeatures &compound,
                                                 const std::vector<double> &values);

} // namespace cospot::prediction
