#include "prediction/neighbour_regression.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace cospot::prediction {

namespace {

constexpr double kTrendVariance = 25.0; ///< of the trend's coefficients: they are hardly held back
constexpr double kValuesWidth = 0.7;    ///< of the radial kernel, standard deviations
constexpr CompoundWeights kStructure = {0.5, 0.25, 0.25, 0.0};
/// What the process may explain by the known values and by the structure, in units of the noise:
/// the trend says most, and a process left free to explain more did worse on unseen compounds.
constexpr double kValuesShare = 0.2;
constexpr double kStructureShare = 0.2;
constexpr double kLeastNoise = 1e-6;   ///< no lab reads better; keeps the covariance invertible
constexpr double kNoiseFreedom = 10.0; ///< of the Student t noise
constexpr int kReweightings = 4;
constexpr double kLocalWidth = 0.5;    ///< of the neighbourhood that spreads are taken from
constexpr double kLocalPooling = 8.0;  ///< compounds' worth of the overall spread in it
constexpr double kLargestResidual = 3; ///< standard deviations; beyond, a residual counts as this

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

Matrix radial(const Matrix &rows, const Matrix &columns, double width) {
    Matrix kernel(rows.rows(), columns.rows());
    for (Eigen::Index j = 0; j < columns.rows(); ++j) {
        kernel.col(j) = (-0.5 / (width * width) *
                         (rows.rowwise() - columns.row(j)).rowwise().squaredNorm().array())
                            .exp();
    }
    return kernel;
}

Matrix covariance(double noise, const Matrix &rows, const Matrix &columns,
                  const Matrix &structure) {
    const Matrix trend = (rows * columns.transpose()).array().square() +
                         2.0 * (rows * columns.transpose()).array() + 1.0;
    return kTrendVariance * trend + noise * (kValuesShare * radial(rows, columns, kValuesWidth) +
                                             kStructureShare * structure);
}

struct Fit {
    double noise = 0.01;
    GaussianProcess process;
    Vector residuals; ///< of the left-out compounds, in the unit of the scaled target
    Vector variances; ///< that the process gives them, noise of an ordinary value included
};

/// Left-out residuals; a value that counts less does so as training value only.
void leave_out(Fit &fit, const Vector &target, const Vector &counts) {
    fit.residuals.resize(target.size());
    fit.variances.resize(target.size());
    for (Eigen::Index i = 0; i < target.size(); ++i) {
        const Moments moments = left_out(fit.process, target, i);
        fit.residuals[i] = target[i] - moments.mean;
        fit.variances[i] = moments.variance - fit.noise / counts[i] + fit.noise;
    }
}

Fit fit_reweighted(const Matrix &known, const Vector &target, const Matrix &structure) {
    Fit fit;
    Vector counts = Vector::Ones(target.size());
    for (int round = 0; round <= kReweightings; ++round) {
        Matrix noisy = covariance(fit.noise, known, known, structure);
        noisy.diagonal().array() += fit.noise / counts.array();
        fit.process = fit_gaussian_process(noisy, target);
        leave_out(fit, target, counts);
        if (round < kReweightings) {
            const Vector squares = fit.residuals.array().square() / fit.variances.array();
            const double scale = (counts.array() * squares.array()).mean();
            fit.noise = std::max(kLeastNoise, fit.noise * std::max(scale, 1e-3));
            counts = (kNoiseFreedom + 1.0) /
                     (kNoiseFreedom + squares.array() / std::max(scale, kLeastNoise));
        }
    }
    return fit;
}

/// The mean of each compound in each of the mixtures; NaN where it has no value.
Matrix cell_means(const RetentionTable &table, const std::vector<std::size_t> &mixtures) {
    const auto compounds = static_cast<Eigen::Index>(table.compounds.size());
    const auto columns = static_cast<Eigen::Index>(mixtures.size());
    Matrix sums = Matrix::Zero(compounds, columns);
    Matrix counts = Matrix::Zero(compounds, columns);
    for (const auto &value : table.values) {
        const auto found = std::find(mixtures.begin(), mixtures.end(), value.mixture);
        if (found != mixtures.end()) {
            const auto column = static_cast<Eigen::Index>(found - mixtures.begin());
            sums(static_cast<Eigen::Index>(value.compound), column) += value.value;
            counts(static_cast<Eigen::Index>(value.compound), column) += 1.0;
        }
    }
    return sums.array() / counts.array();
}

/// Centres the known values and the target; a column without variation keeps its unit.
Vector standardise(NeighbourRegression &regression, const Matrix &known, const Vector &target) {
    const auto deviation_of = [](const Vector &values) {
        const double deviation = std::sqrt((values.array() - values.mean()).square().mean());
        return deviation > 0.0 ? deviation : 1.0;
    };
    regression.known_mean = known.colwise().mean();
    regression.known_deviation.resize(known.cols());
    for (Eigen::Index k = 0; k < known.cols(); ++k) {
        regression.known_deviation[k] = deviation_of(known.col(k));
    }
    regression.known_values =
        (known.rowwise() - regression.known_mean.transpose()).array() /
        regression.known_deviation.transpose().replicate(known.rows(), 1).array();
    regression.mean = target.mean();
    regression.deviation = deviation_of(target);
    return (target.array() - regression.mean) / regression.deviation;
}

/// How much wider than on average compounds with values like `known` scatter. Compound `left_out`
/// of the training compounds does not count.
double local_spread(const NeighbourRegression &regression, const Matrix &known,
                    Eigen::Index left_out) {
    Vector weights = radial(regression.known_values, known, kLocalWidth).col(0);
    if (left_out >= 0) {
        weights[left_out] = 0.0;
    }
    const double average = regression.squared_residuals.mean();
    return std::sqrt((weights.dot(regression.squared_residuals) + kLocalPooling * average) /
                     (weights.sum() + kLocalPooling));
}

/// How far the targets of the training compounds reach beyond their known values.
Range reach(const Matrix &known, const Vector &target) {
    return {std::min(0.0, (target - known.rowwise().minCoeff()).minCoeff()),
            std::max(0.0, (target - known.rowwise().maxCoeff()).maxCoeff())};
}

/// The location within what is possible and within the reach of the known values: a trend must not
/// run away for a compound unlike all others.
double bounded(const NeighbourRegression &regression, const Vector &known, double location) {
    const double low = std::max(regression.range.low, known.minCoeff() + regression.beyond.low);
    const double high = std::min(regression.range.high, known.maxCoeff() + regression.beyond.high);
    return std::clamp(location, low, std::max(low, high));
}

void calibrate_locally(NeighbourRegression &regression, const Fit &fit, const Vector &target) {
    const Vector squares = fit.residuals.array().square() / fit.variances.array();
    regression.squared_residuals = squares.cwiseMin(kLargestResidual * kLargestResidual);
    std::vector<double> residuals;
    for (Eigen::Index i = 0; i < target.size(); ++i) {
        const double spread = local_spread(regression, regression.known_values.row(i), i);
        const Vector known =
            regression.known_mean.array() +
            regression.known_deviation.array() * regression.known_values.row(i).transpose().array();
        const double expected =
            bounded(regression, known,
                    regression.mean + regression.deviation * (target[i] - fit.residuals[i]));
        const double observed = regression.mean + regression.deviation * target[i];
        residuals.push_back((observed - expected) /
                            (regression.deviation * std::sqrt(fit.variances[i]) * spread));
    }
    regression.calibration = calibrate(residuals);
}

} // namespace

std::optional<NeighbourRegression> fit_neighbours(const RetentionTable &table,
                                                  const std::vector<std::size_t> &known,
                                                  std::size_t target, const Range &range) {
    std::vector<std::size_t> mixtures = known;
    mixtures.push_back(target);
    const Matrix means = cell_means(table, mixtures);
    NeighbourRegression regression;
    std::vector<Eigen::Index> common;
    for (Eigen::Index c = 0; c < means.rows(); ++c) {
        if (means.row(c).allFinite()) {
            common.push_back(c);
            regression.compounds.push_back(table.compounds[static_cast<std::size_t>(c)]);
        }
    }
    if (common.size() < kFewestCommonCompounds) {
        return std::nullopt;
    }
    regression.known = known;
    regression.range = range;
    const Matrix measured = means(common, Eigen::seqN(0, means.cols() - 1));
    const Vector targets = means(common, means.cols() - 1);
    regression.beyond = reach(measured, targets);
    const Vector values = standardise(regression, measured, targets);
    regression.scale = fit_scale(table.compounds);
    const Matrix structure = compound_kernel(
        compare_compounds(regression.scale, regression.compounds, regression.compounds),
        kStructure);
    Fit fit = fit_reweighted(regression.known_values, values, structure);
    regression.noise = fit.noise;
    calibrate_locally(regression, fit, values);
    regression.process = std::move(fit.process);
    return regression;
}

Prediction predict_from_neighbours(const NeighbourRegression &regression,
                                   const CompoundFeatures &compound,
                                   const std::vector<double> &values) {
    const Eigen::Map<const Vector> given(values.data(), static_cast<Eigen::Index>(values.size()));
    const Matrix known =
        ((given - regression.known_mean).array() / regression.known_deviation.array())
            .matrix()
            .transpose();
    const Matrix cross_structure = compound_kernel(
        compare_compounds(regression.scale, regression.compounds, {compound}), kStructure);
    const Matrix self_structure =
        compound_kernel(compare_compounds(regression.scale, {compound}, {compound}), kStructure);
    const Vector cross =
        covariance(regression.noise, regression.known_values, known, cross_structure).col(0);
    const double prior =
        covariance(regression.noise, known, known, self_structure)(0, 0) + regression.noise;
    const Moments moments = predict(regression.process, cross, prior);
    const double spread = regression.deviation * std::sqrt(std::max(moments.variance, 0.0)) *
                          local_spread(regression, known, -1);
    const double location = regression.mean + regression.deviation * moments.mean;
    return regression.calibration.spread(bounded(regression, given, location), spread);
}

} // namespace cospot::prediction
