#pragma once

#include <Eigen/Dense>

#include <vector>

namespace cospot::prediction {

/// A mobile phase: the volume fraction of each solvent of a list that is the same for all mixtures
/// of a technique. A system without one is a mixture of length 0.
using Mixture = std::vector<double>;

/// How far retention carries from one mixture to another. Fractions are compared as
/// ln(1 + x / knee) / ln(1 + 1 / knee), so that a step from 0 to 2 % of a strong solvent counts for
/// more than one from 50 to 52 %; `width` is the distance on that scale over which curves bend.
struct MixtureKernel {
    double knee = 0.03;
    double width = 0.7;
};

/// Covariance between the mixtures of two lists, 1 for a mixture with itself (rows x columns).
[[nodiscard]] Eigen::MatrixXd mixture_covariance(const MixtureKernel &kernel,
                                                 const std::vector<Mixture> &rows,
                                                 const std::vector<Mixture> &columns);

} // namespace cospot::prediction
