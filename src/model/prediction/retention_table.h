#pragma once

#include "model/prediction/compound_space.h"
#include "model/prediction/mixture_kernel.h"

#include <Eigen/Dense>

#include <cstddef>
#include <vector>

namespace cospot::prediction {

/// One measured value.
struct RetentionValue {
    std::size_t compound = 0; ///< index in `RetentionTable::compounds`
    std::size_t mixture = 0;  ///< index in `RetentionTable::mixtures`
    double value = 0.0;       ///< on a scale on which errors are about even everywhere
};

/// What was measured on the systems of one technique that differ in their mobile phase only, or on
/// one system. A structure stands in `compounds` once; several values of one compound in one
/// mixture are replicates. A mixture without values can be predicted too.
struct RetentionTable {
    std::vector<CompoundFeatures> compounds;
    std::vector<Mixture> mixtures;
    std::vector<RetentionValue> values;
};

/// How many compounds have a value.
[[nodiscard]] std::size_t measured_compounds(const RetentionTable &table);

/// The same mixtures with these compounds only (positions in `table.compounds`).
[[nodiscard]] RetentionTable part_of(const RetentionTable &table,
                                     const std::vector<Eigen::Index> &compounds);

/// The values of one compound, as they enter a fit.
struct CompoundValues {
    std::vector<Eigen::Index> mixtures;
    Eigen::VectorXd values;
};

/// The table made ready for a fit: what each mixture does to all compounds taken off, the rest in
/// units of its standard deviation.
struct CentredValues {
    std::vector<CompoundValues> compounds; ///< in the order of the table
    Eigen::VectorXd offsets;               ///< of the mixtures, in the unit of the values
    double unit = 1.0;                     ///< standard deviation, in the unit of the values
};

/// The offset of a mixture is the mean of its values. A mixture without values gets the offsets of
/// the others, weighted with `alike`, their mixture covariance.
[[nodiscard]] CentredValues centre(const RetentionTable &table, const Eigen::MatrixXd &alike);

} // namespace cospot::prediction
