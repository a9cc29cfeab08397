#pragma once

#include "transfer/local_trend.h"
#include "transfer/relation.h"

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

/// How values on one system follow from values on others, calibrated on compounds that were left
/// out.
struct Target {
    Eigen::Index system = 0;
    LocalTrend trend;            ///< what the relation misses, in units of what it expects to miss
    double factor = 1.0;         ///< by which the expected spread is wrong
    double freedom = 4.0;        ///< degrees of freedom of the Student t of the misses
    double typical_miss = 0.0;   ///< robust standard deviation, model scale
    double typical_spread = 0.0; ///< the same of the values themselves
    std::vector<Source> sources; ///< those that inform most first
};

/// The relation between systems, and the targets that other systems say something about.
struct TransferModel {
    Relation relation;
    std::vector<Target> targets;
};

/// `values` and `noise` as for `fit_relation`; `targets` are columns. A target is left out where
/// fewer than `kFewestCompounds` were measured on it and elsewhere too, or where the others tell
/// nothing. Calibration fits the relation to five parts of the compounds in turn.
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
