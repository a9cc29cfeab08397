#pragma once

#include "model/prediction/gaussian_process.h"

#include <Eigen/Dense>

#include <vector>

namespace cospot::transfer {

/// Makes one source of many systems: their values (in deviations from their means), each weighted
/// by how closely it goes together with the target, and what the leading systems differ from it by.
struct CombinedSource {
    Eigen::VectorXd weights;           ///< of the systems; 0 for the target
    std::vector<Eigen::Index> leading; ///< the systems that weigh most, at most five
    double mean = 0.0;                 ///< of the combined value over the compounds
    double deviation = 1.0;
};

/// The parts that the curve from the source to the target is made of, as variances in units of the
/// target's: a straight line (always), what the leading systems add to it, and two smooth bends, of
/// the combined value alone and of all inputs.
struct CurveShape {
    double leading = 0.0;
    double bend = 0.0;
    double bend_width = 1.0; ///< in deviations of the combined value
    double joint_bend = 0.0;
    double joint_width = 1.0;
    double noise = 0.05; ///< scatter of a reading around the curve
};

/// Retention on a target from other systems, learned from the compounds that were measured on the
/// target: a Gaussian process (C. E. Rasmussen, C. K. I. Williams, Gaussian Processes for Machine
/// Learning, 2006) whose shape is the likeliest of a few. With few compounds it is little more than
/// the straight line. Readings far off count less (Student t, by reweighting).
struct SourceCurve {
    CombinedSource source;
    CurveShape shape;
    double mean = 0.0;      ///< of the target
    double deviation = 1.0; ///< of the target
    Eigen::MatrixXd inputs; ///< (1 + leading) x compounds
    prediction::GaussianProcess process;
    std::vector<prediction::Moments> left_out; ///< what the others say of each compound's reading
};

/// `sources` are the compounds' values on all systems, in deviations from their means, measured or
/// expected from other systems than the target (compounds x systems, 0 in the target's column);
/// `readings` are those on the target. `typical` is the correlation of two systems of this kind, to
/// which that of each with the target is drawn. Three compounds are needed. Cost: n^3.
[[nodiscard]] SourceCurve fit_source_curve(const Eigen::MatrixXd &sources,
                                           const Eigen::VectorXd &readings, Eigen::Index target,
                                           double typical);

/// Mean and variance of the reading of a compound whose values are `sources`.
[[nodiscard]] prediction::Moments reading_from(const SourceCurve &curve,
                                               const Eigen::VectorXd &sources);

} // namespace cospot::transfer
