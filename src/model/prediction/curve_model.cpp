#include "model/prediction/curve_model.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cospot::prediction {

namespace {

/// Directions of the mixture covariance below this share of the largest are left out.
constexpr double kSmallestDirection = 1e-2;
/// Keeps the information of a compound with few values invertible; far below what a value says.
constexpr double kFloor = 1e-8;

/// In units of the values' deviation; an outlier shall not decide on the parameters.
constexpr double kLargestError = 2.0;

/// The covariance of the mixtures as basis * basis^T.
Eigen::MatrixXd basis_of(const Eigen::MatrixXd &covariance) {
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(covariance);
    const Eigen::VectorXd &strengths = solver.eigenvalues();
    Eigen::Index kept = 0;
    while (kept < strengths.size() && strengths[strengths.size() - 1 - kept] >
                                          kSmallestDirection * strengths[strengths.size() - 1]) {
        ++kept;
    }
    return solver.eigenvectors().rightCols(kept) * strengths.tail(kept).cwiseSqrt().asDiagonal();
}

/// Sums over compounds that the likelihood needs besides the condensed values.
struct Residue {
    double log_determinant = 0.0;
    double squares = 0.0;
};

/// Condenses the values of one compound; returns what they add to the residue.
Residue condense(CurveModel &model, std::size_t compound) {
    const CompoundValues &own = model.values.compounds[compound];
    const Eigen::Index coefficients = model.basis.cols();
    const auto count = static_cast<Eigen::Index>(own.mixtures.size());
    Eigen::MatrixXd covariance = model.own(own.mixtures, own.mixtures);
    covariance.diagonal().array() += model.parameters.noise;
    const Eigen::LLT<Eigen::MatrixXd> factor(covariance);
    const Eigen::MatrixXd design = model.basis(own.mixtures, Eigen::all);
    const Eigen::MatrixXd whitened = factor.matrixL().solve(design);
    const Eigen::VectorXd values = factor.matrixL().solve(own.values);
    Eigen::MatrixXd information = whitened.transpose() * whitened;
    information.diagonal().array() += kFloor * (1.0 + information.trace());
    model.roots[compound] = information.llt().matrixL();
    model.condensed.segment(static_cast<Eigen::Index>(compound) * coefficients, coefficients) =
        model.roots[compound].triangularView<Eigen::Lower>().solve(
            Eigen::VectorXd(whitened.transpose() * values));
    Residue residue{0.0, values.squaredNorm()};
    for (Eigen::Index i = 0; i < count; ++i) {
        residue.log_determinant += 2.0 * std::log(factor.matrixLLT()(i, i));
    }
    return residue;
}

/// The covariance of the condensed values.
Eigen::MatrixXd condensed_covariance(const CurveModel &model) {
    const Eigen::Index coefficients = model.basis.cols();
    const auto compounds = static_cast<Eigen::Index>(model.roots.size());
    Eigen::MatrixXd covariance(compounds * coefficients, compounds * coefficients);
    for (Eigen::Index i = 0; i < compounds; ++i) {
        for (Eigen::Index j = 0; j <= i; ++j) {
            covariance.block(i * coefficients, j * coefficients, coefficients, coefficients) =
                model.kernel(i, j) * model.roots[static_cast<std::size_t>(i)].transpose() *
                model.roots[static_cast<std::size_t>(j)];
        }
    }
    covariance.diagonal().array() += 1.0;
    return covariance;
}

/// A model whose values are condensed but not fitted.
CurveModel prepare(const RetentionTable &table, const Eigen::MatrixXd &kernel,
                   const CurveParameters &parameters, Residue &residue) {
    CurveModel model;
    model.parameters = parameters;
    model.kernel = kernel;
    const Eigen::MatrixXd shared =
        mixture_covariance(parameters.shared, table.mixtures, table.mixtures);
    model.basis = basis_of(shared);
    const MixtureKernel own{parameters.shared.knee, parameters.own_width};
    model.own = parameters.own * mixture_covariance(own, table.mixtures, table.mixtures);
    model.values = centre(table, shared);
    model.roots.resize(table.compounds.size());
    model.condensed.resize(static_cast<Eigen::Index>(table.compounds.size()) * model.basis.cols());
    for (std::size_t compound = 0; compound < table.compounds.size(); ++compound) {
        const Residue own_residue = condense(model, compound);
        residue.log_determinant += own_residue.log_determinant;
        residue.squares += own_residue.squares;
    }
    return model;
}

Eigen::LLT<Eigen::MatrixXd> factorised(const CurveModel &model) {
    Eigen::LLT<Eigen::MatrixXd> factor(condensed_covariance(model));
    if (factor.info() != Eigen::Success) {
        throw std::invalid_argument("the covariance of the compounds is not positive definite");
    }
    return factor;
}

/// The curve from moments of its coefficients.
Curve curve_of(const CurveModel &model, const Eigen::VectorXd &coefficients,
               const Eigen::MatrixXd &covariance) {
    const double unit = model.values.unit;
    return {model.values.offsets + unit * model.basis * coefficients,
            unit * unit * (model.basis * covariance * model.basis.transpose() + model.own)};
}

} // namespace

CurveModel fit_curves(const RetentionTable &table, const Eigen::MatrixXd &kernel,
                      const CurveParameters &parameters) {
    Residue residue;
    CurveModel model = prepare(table, kernel, parameters, residue);
    model.factor = factorised(model);
    model.weights = model.factor.solve(model.condensed);
    return model;
}

Curve predict_curve(const CurveModel &model, const Eigen::VectorXd &cross, double self) {
    const Eigen::Index coefficients = model.basis.cols();
    Eigen::MatrixXd link(model.condensed.size(), coefficients);
    for (Eigen::Index c = 0; c < cross.size(); ++c) {
        link.middleRows(c * coefficients, coefficients) =
            cross[c] * model.roots[static_cast<std::size_t>(c)].transpose();
    }
    const Eigen::MatrixXd explained = model.factor.matrixL().solve(link);
    const Eigen::MatrixXd covariance =
        self * Eigen::MatrixXd::Identity(coefficients, coefficients) -
        explained.transpose() * explained;
    return curve_of(model, link.transpose() * model.weights, covariance);
}

namespace {

/// So many consecutive columns of the inverse of the lower factor, without the zeros above them.
Eigen::MatrixXd inverse_columns(const CurveModel &model, Eigen::Index begin, Eigen::Index count) {
    const Eigen::Index rest = model.condensed.size() - begin;
    return model.factor.matrixLLT()
        .bottomRightCorner(rest, rest)
        .triangularView<Eigen::Lower>()
        .solve(Eigen::MatrixXd::Identity(rest, count).eval());
}

/// `precision` is the compound's block of the inverse of the covariance.
Curve left_out_curve(const CurveModel &model, std::size_t compound,
                     const Eigen::MatrixXd &precision) {
    const Eigen::Index coefficients = model.basis.cols();
    const Eigen::Index begin = static_cast<Eigen::Index>(compound) * coefficients;
    const Eigen::MatrixXd predictive = precision.inverse();
    const Eigen::VectorXd mean = model.condensed.segment(begin, coefficients) -
                                 predictive * model.weights.segment(begin, coefficients);
    // Back from condensed values, root^T coefficients + noise of variance 1, to the coefficients.
    const Eigen::MatrixXd back =
        model.roots[compound].transpose().triangularView<Eigen::Upper>().solve(
            Eigen::MatrixXd::Identity(coefficients, coefficients));
    const Eigen::MatrixXd noiseless =
        predictive - Eigen::MatrixXd::Identity(coefficients, coefficients);
    return curve_of(model, back * mean, back * noiseless * back.transpose());
}

} // namespace

std::vector<Curve> left_out_curves(const CurveModel &model) {
    constexpr Eigen::Index panel = 64; // columns at once, for speed
    const Eigen::Index coefficients = model.basis.cols();
    const auto compounds = static_cast<Eigen::Index>(model.roots.size());
    const Eigen::Index together = std::max<Eigen::Index>(1, panel / coefficients);
    std::vector<Curve> curves;
    curves.reserve(model.roots.size());
    for (Eigen::Index first = 0; first < compounds; first += together) {
        const Eigen::Index count = std::min(together, compounds - first);
        const Eigen::MatrixXd columns =
            inverse_columns(model, first * coefficients, count * coefficients);
        for (Eigen::Index i = 0; i < count; ++i) {
            const Eigen::MatrixXd own = columns.middleCols(i * coefficients, coefficients);
            curves.push_back(
                left_out_curve(model, static_cast<std::size_t>(first + i), own.transpose() * own));
        }
    }
    return curves;
}

double left_out_error(const CurveModel &model) {
    double sum = 0.0;
    double count = 0.0;
    const std::vector<Curve> curves = left_out_curves(model);
    for (std::size_t compound = 0; compound < model.roots.size(); ++compound) {
        const CompoundValues &own = model.values.compounds[compound];
        const Eigen::VectorXd expected =
            (curves[compound].mean - model.values.offsets)(own.mixtures) / model.values.unit;
        sum += (own.values - expected).array().square().min(kLargestError * kLargestError).sum();
        count += static_cast<double>(own.values.size());
    }
    return sum / count;
}

double noise_variance(const CurveModel &model) {
    return model.parameters.noise * model.values.unit * model.values.unit;
}

} // namespace cospot::prediction
