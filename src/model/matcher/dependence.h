#pragma once

#include <Eigen/Dense>

#include <cstddef>
#include <map>
#include <vector>

namespace cospot::matcher {

/// How the readings of one compound on several systems go together, beyond what is expected on each
/// (two silica eluents see the same polarity): correlations of their errors.
struct ErrorCorrelation {
    std::vector<std::size_t> systems; ///< indices of the system models
    Eigen::MatrixXd correlation;      ///< systems x systems
};

/// How the readings of any one compound on several systems lie together: a multivariate Student t
/// on the model scale, fitted to the compounds of the library.
struct JointReadings {
    std::vector<std::size_t> systems; ///< indices of the system models
    Eigen::VectorXd mean;             ///< of each system
    Eigen::MatrixXd covariance;       ///< scale of the t, systems x systems, of readings
    double freedom = 5.0;
};

/// What the systems have in common, one entry for each kind of systems (plates do not go together
/// with gas chromatograms). Left empty, all readings are independent.
struct Dependence {
    /// Of the readings of compounds that the library does not hold.
    std::vector<JointReadings> unlisted;
    /// Of the expected values of compounds that were transferred to several systems.
    std::map<std::size_t, std::vector<ErrorCorrelation>> compounds;
};

/// One reading by its rank in the distribution that it was expected from.
struct RankedReading {
    std::size_t system = 0;
    double probability_below = 0.5;
    double certain = 1.0; ///< share of what it may be off that is not the reading's own error
};

/// One reading on the model scale.
struct PlacedReading {
    std::size_t system = 0;
    double place = 0.0;
    double error = 0.0; ///< standard, of the reading itself, model scale
};

/// Natural logarithm of how much likelier the readings of one compound are together than if they
/// were independent: the joint t over the product of its own marginals, 0.9 of it, and 0.1 for a
/// compound unlike those of the library, whose readings are independent. Readings on systems that
/// are not in it, the second of two on one system, and those whose own error is larger than what
/// compounds differ by count as independent.
[[nodiscard]] double log_together(const JointReadings &joint,
                                  const std::vector<PlacedReading> &readings);

/// Natural logarithm of how much likelier the readings are together than if they were independent:
/// the density of a Gaussian copula (sklar1959, song2000; from memory). Correlations are known to
/// so much only: 0.95 of each counts, and less where readings have errors of their own. Readings on
/// systems that the correlation does not cover, and the second of two on one system, count as
/// independent.
[[nodiscard]] double log_dependence(const ErrorCorrelation &correlation,
                                    const std::vector<RankedReading> &readings);

/// The same over several kinds of systems, which are independent of each other.
[[nodiscard]] double dependence_of_kinds(const std::vector<ErrorCorrelation> &kinds,
                                         const std::vector<RankedReading> &readings);

} // namespace cospot::matcher
