#include "model/transfer/source_curve.h"

#include "model/transfer/relation.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

namespace cospot::transfer {

namespace {

constexpr std::size_t kMostLeading = 5;
constexpr Eigen::Index kMostSearched = 120; ///< compounds that a shape is looked for with
constexpr double kLine = 3.0;               ///< variance of level and slope of the straight line
constexpr double kPenalty = 0.3;            ///< log likelihood that each part must bring
constexpr double kCurveFreedom = 4.0;       ///< of the Student t around the curve
constexpr double kSmallestDeviation = 1e-9;

double deviation_of(const Eigen::VectorXd &values) {
    const double mean = values.mean();
    const double squares = (values.array() - mean).square().sum();
    return std::sqrt(squares / static_cast<double>(values.size() - 1)) + kSmallestDeviation;
}

double correlation(const Eigen::VectorXd &a, const Eigen::VectorXd &b) {
    const double product = (a.array() - a.mean()).cwiseProduct(b.array() - b.mean()).sum();
    return product / (static_cast<double>(a.size() - 1) * deviation_of(a) * deviation_of(b));
}

/// Weights as of independent measurements of one quantity: r^2 / (1 - r^2).
CombinedSource combine(const Eigen::MatrixXd &sources, const Eigen::VectorXd &readings,
                       Eigen::Index target, double typical) {
    CombinedSource source;
    source.weights = Eigen::VectorXd::Zero(sources.cols());
    for (Eigen::Index s = 0; s < sources.cols(); ++s) {
        if (s != target) {
            const double together =
                shrunken_correlation(correlation(sources.col(s), readings),
                                     static_cast<double>(readings.size()), typical);
            source.weights[s] =
                std::copysign(together * together, together) / (1.0 - together * together);
            source.leading.push_back(s);
        }
    }
    source.weights /= std::max(source.weights.cwiseAbs().sum(), kSmallestDeviation);
    std::stable_sort(source.leading.begin(), source.leading.end(), [&](auto a, auto b) {
        return std::abs(source.weights[a]) > std::abs(source.weights[b]);
    });
    source.leading.resize(std::min(source.leading.size(), kMostLeading));
    const Eigen::VectorXd combined = sources * source.weights;
    source.mean = combined.mean();
    source.deviation = deviation_of(combined);
    return source;
}

/// The combined value in its deviations, then what the leading systems differ from it by.
Eigen::VectorXd input_of(const CombinedSource &source, const Eigen::VectorXd &sources) {
    const double combined = sources.dot(source.weights);
    Eigen::VectorXd input(1 + std::ssize(source.leading));
    input[0] = (combined - source.mean) / source.deviation;
    input.tail(std::ssize(source.leading)) = sources(source.leading).array() - combined;
    return input;
}

/// What the covariance of the curve between compounds is made of, whatever its shape.
struct Pairs {
    Eigen::MatrixXd line;    ///< of the straight line
    Eigen::MatrixXd leading; ///< of what the leading systems add
    Eigen::ArrayXXd along;   ///< squared distance of the combined values
    Eigen::ArrayXXd all;     ///< of all inputs; differences between systems count more
};

/// Between the columns of two lists of inputs.
Pairs pairs_of(const Eigen::MatrixXd &rows, const Eigen::MatrixXd &columns) {
    constexpr double differences = 4.0;
    const Eigen::Index rest = rows.rows() - 1;
    Pairs pairs;
    pairs.line = kLine * (1.0 + (rows.row(0).transpose() * columns.row(0)).array()).matrix();
    pairs.leading = rows.bottomRows(rest).transpose() * columns.bottomRows(rest);
    pairs.along = (rows.row(0).transpose().replicate(1, columns.cols()) -
                   columns.row(0).replicate(rows.cols(), 1))
                      .array()
                      .square();
    const Eigen::VectorXd of_rows = rows.bottomRows(rest).colwise().squaredNorm();
    const Eigen::VectorXd of_columns = columns.bottomRows(rest).colwise().squaredNorm();
    pairs.all = pairs.along + differences * ((of_rows.replicate(1, columns.cols()) +
                                              of_columns.transpose().replicate(rows.cols(), 1) -
                                              2.0 * pairs.leading)
                                                 .array()
                                                 .max(0.0));
    return pairs;
}

Eigen::MatrixXd covariance(const CurveShape &shape, const Pairs &pairs) {
    Eigen::MatrixXd sum = pairs.line + shape.leading * pairs.leading;
    if (shape.bend > 0.0) {
        sum.array() += shape.bend * (-0.5 / std::pow(shape.bend_width, 2) * pairs.along).exp();
    }
    if (shape.joint_bend > 0.0) {
        sum.array() += shape.joint_bend * (-0.5 / std::pow(shape.joint_width, 2) * pairs.all).exp();
    }
    return sum;
}

/// Compounds with their readings in units of the target; `weights` say how much each counts.
struct Training {
    Eigen::MatrixXd inputs;
    Eigen::VectorXd readings;
    Eigen::VectorXd weights;
};

Eigen::MatrixXd with_noise(Eigen::MatrixXd covariance, const CurveShape &shape,
                           const Eigen::VectorXd &weights) {
    covariance.diagonal() += shape.noise * weights.cwiseInverse();
    return covariance;
}

double log_likelihood(const CurveShape &shape, const Pairs &pairs, const Training &training) {
    const Eigen::LLT<Eigen::MatrixXd> factor(
        with_noise(covariance(shape, pairs), shape, training.weights));
    const double fit = training.readings.dot(factor.solve(training.readings));
    const double parts = (shape.leading > 0.0 ? 1.0 : 0.0) + (shape.bend > 0.0 ? 1.0 : 0.0) +
                         (shape.joint_bend > 0.0 ? 1.0 : 0.0);
    return -0.5 * fit - factor.matrixLLT().diagonal().array().log().sum() - kPenalty * parts;
}

/// Looks for the likeliest shape, one part after the other.
class ShapeSearch {
public:
    explicit ShapeSearch(Training training)
        : training_(std::move(training)), pairs_(pairs_of(training_.inputs, training_.inputs)) {}

    CurveShape found() {
        for (const double noise : {0.3, 0.1, 0.03, 0.01, 0.003, 0.001, 0.0003}) {
            CurveShape shape;
            shape.noise = noise;
            consider(shape);
        }
        for (int pass = 0; pass < 2; ++pass) {
            vary({0.0, 0.01, 0.1, 1.0, 10.0}, {0.0},
                 [](CurveShape &shape, double part, double) { shape.leading = part; });
            vary(kBends, {0.4, 1.0}, [](CurveShape &shape, double part, double width) {
                shape.bend = part;
                shape.bend_width = width;
            });
            vary(kBends, {0.7, 1.5}, [](CurveShape &shape, double part, double width) {
                shape.joint_bend = part;
                shape.joint_width = width;
            });
            vary({0.5, 0.7, 1.4, 2.0}, {0.0},
                 [](CurveShape &shape, double factor, double) { shape.noise *= factor; });
        }
        return best_;
    }

private:
    inline static const std::vector<double> kBends = {0.0, 0.003, 0.03, 0.3};

    void consider(const CurveShape &shape) {
        const double likelihood = log_likelihood(shape, pairs_, training_);
        if (likelihood > highest_ + 1e-6) {
            highest_ = likelihood;
            best_ = shape;
        }
    }

    template <typename Change>
    void vary(const std::vector<double> &parts, const std::vector<double> &widths, Change change) {
        const CurveShape before = best_;
        for (const double part : parts) {
            for (const double width : widths) {
                for (const double noise : {1.0, 0.5}) { // a better curve leaves less
                    CurveShape shape = before;
                    shape.noise *= noise;
                    change(shape, part, width);
                    consider(shape);
                }
            }
        }
    }

    Training training_;
    Pairs pairs_;
    CurveShape best_;
    double highest_ = -std::numeric_limits<double>::infinity();
};

/// An even choice of the compounds.
Training search_part(const Training &training) {
    const Eigen::Index count = training.inputs.cols();
    const Eigen::Index used = std::min(count, kMostSearched);
    std::vector<Eigen::Index> rows;
    for (Eigen::Index i = 0; i < used; ++i) {
        rows.push_back(i * count / used);
    }
    return {training.inputs(Eigen::all, rows), training.readings(rows), training.weights(rows)};
}

/// Far-off readings get smaller weights, by how far they are from the curve with them in it.
void reweight(const CurveShape &shape, const prediction::GaussianProcess &process,
              Training &training) {
    for (Eigen::Index i = 0; i < training.weights.size(); ++i) {
        const double miss = process.weights[i] * shape.noise / training.weights[i];
        training.weights[i] =
            std::min(1.0, (kCurveFreedom + 1.0) / (kCurveFreedom + miss * miss / shape.noise));
    }
}

/// A reading has the noise at least; where the curve is known almost exactly, the difference of
/// large numbers that its variance is may be rounded below it, or below 0.
prediction::Moments with_noise_at_least(prediction::Moments reading, const CurveShape &shape) {
    reading.variance = std::max(reading.variance, shape.noise);
    return reading;
}

} // namespace

SourceCurve fit_source_curve(const Eigen::MatrixXd &sources, const Eigen::VectorXd &readings,
                             Eigen::Index target, double typical) {
    SourceCurve curve;
    curve.source = combine(sources, readings, target, typical);
    curve.mean = readings.mean();
    curve.deviation = deviation_of(readings);
    curve.inputs.resize(1 + std::ssize(curve.source.leading), sources.rows());
    for (Eigen::Index i = 0; i < sources.rows(); ++i) {
        curve.inputs.col(i) = input_of(curve.source, sources.row(i));
    }
    Training training{curve.inputs, (readings.array() - curve.mean) / curve.deviation,
                      Eigen::VectorXd::Ones(readings.size())};
    const Pairs pairs = pairs_of(curve.inputs, curve.inputs);
    const auto fit = [&] {
        curve.process = prediction::fit_gaussian_process(
            with_noise(covariance(curve.shape, pairs), curve.shape, training.weights),
            training.readings);
    };
    curve.shape = ShapeSearch(search_part(training)).found();
    fit();
    reweight(curve.shape, curve.process, training);
    curve.shape = ShapeSearch(search_part(training)).found();
    fit();
    reweight(curve.shape, curve.process, training);
    fit();
    for (Eigen::Index i = 0; i < readings.size(); ++i) {
        prediction::Moments moments = prediction::left_out(curve.process, training.readings, i);
        // The reading itself is asked for as one that counts in full.
        moments.variance += curve.shape.noise * (1.0 - 1.0 / training.weights[i]);
        moments = with_noise_at_least(moments, curve.shape);
        curve.left_out.push_back({curve.mean + curve.deviation * moments.mean,
                                  curve.deviation * curve.deviation * moments.variance});
    }
    return curve;
}

prediction::Moments reading_from(const SourceCurve &curve, const Eigen::VectorXd &sources) {
    const Eigen::VectorXd input = input_of(curve.source, sources);
    const Eigen::VectorXd cross = covariance(curve.shape, pairs_of(curve.inputs, input));
    const double own = covariance(curve.shape, pairs_of(input, input))(0, 0);
    const prediction::Moments moments = with_noise_at_least(
        prediction::predict(curve.process, cross, own + curve.shape.noise), curve.shape);
    return {curve.mean + curve.deviation * moments.mean,
            curve.deviation * curve.deviation * moments.variance};
}

} // namespace cospot::transfer
