#pragma once

#include "model/transfer/local_scatter.h"
#include "model/transfer/relation.h"
#include "model/transfer/source_curve.h"

#include <Eigen/Dense>

#include <cstddef>
#include <vector>

namespace cospot::transfer {

/// Another system that informs a target, and how closely their values go together.
struct Source {
    Eigen::Index system = 0;
    double correlation = 0.0;
    std::size_t common = 0; ///< compounds measured on both
};

/// How values on one system follow from values on others: half from the relation between all
/// systems, half from a curve through the compounds measured on the target, unless left-out
/// compounds clearly speak for one of them. Neither is better everywhere, and their errors differ.
/// Calibrated on compounds that were left out.
struct Target {
    Eigen::Index system = 0;
    Relation relation; ///< sharpened for this system
    SourceCurve curve;
    double share_of_relation = 0.5;
    LocalScatter scatter;        ///< of the misses, in units of what is expected
    double factor = 1.0;         ///< by which the expected spread is wrong
    double freedom = 4.0;        ///< degrees of freedom of the Student t of the misses
    double gain = 0.0;           ///< mean log density of left-out readings beyond what is known of
                                 ///< a compound that was measured nowhere else
    std::vector<Source> sources; ///< those that inform most first
};

/// The relation between systems, and the targets that other systems say something about.
struct TransferModel {
    Relation relation;
    std::vector<Target> targets;
    std::vector<Target> refused; ///< targets that were tried, but of which the others tell nothing
};

/// `values` and `noise` as for `fit_relation`; `targets` are columns. A target is left out where
/// fewer than `kFewestCompounds` were measured on it and elsewhere too; it is refused where
/// left-out readings are not likelier with what the others tell than without. Calibration fits the
/// relation to five parts of the compounds in turn.
[[nodiscard]] TransferModel fit_transfer(const Eigen::MatrixXd &values,
                                         const Eigen::VectorXd &noise,
                                         const std::vector<Eigen::Index> &targets);

/// What a reading of a compound on a target is expected to be: a Student t on the model scale.
struct Transferred {
    Eigen::Index system = 0;
    double location = 0.0;
    double scale = 0.0;
    double freedom = 0.0;
};

/// The compound's expected readings on the targets where it was not measured, and how their errors
/// go together. Empty where it was measured nowhere else.
struct TransferredCompound {
    std::vector<Transferred> readings;
    Eigen::MatrixXd correlation; ///< readings x readings
};
[[nodiscard]] TransferredCompound transfer(const TransferModel &model,
                                           const Eigen::VectorXd &values);

/// How readings of different compounds on the systems go together: correlations, systems x systems.
[[nodiscard]] Eigen::MatrixXd reading_correlation(const Relation &relation);

} // namespace cospot::transfer
