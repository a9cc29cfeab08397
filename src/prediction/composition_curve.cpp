#include "prediction/composition_curve.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace cospot::prediction {

namespace {

constexpr std::ptrdiff_t kNearest = 2;

/// Positions of the values in the mixtures that go most with the mixture of value `of`.
std::vector<Eigen::Index> nearest(const CompoundValues &values, Eigen::Index of,
                                  const Eigen::MatrixXd &alike) {
    const auto mixture_of = [&](Eigen::Index i) {
        return values.mixtures[static_cast<std::size_t>(i)];
    };
    std::vector<Eigen::Index> others;
    for (Eigen::Index i = 0; i < values.values.size(); ++i) {
        if (mixture_of(i) != mixture_of(of)) {
            others.push_back(i);
        }
    }
    std::stable_sort(others.begin(), others.end(), [&](Eigen::Index a, Eigen::Index b) {
        return alike(mixture_of(of), mixture_of(a)) > alike(mixture_of(of), mixture_of(b));
    });
    return {others.begin(),
            others.begin() + std::min<std::ptrdiff_t>(std::ssize(others), kNearest)};
}

/// Residuals of one left-out compound, in standard deviations.
void add_residuals(const StructureModel &model, const CompoundValues &own, const Curve &free,
                   std::vector<double> &residuals) {
    const CurveModel &curves = model.curves;
    const Eigen::VectorXd measured =
        curves.values.offsets(own.mixtures) + curves.values.unit * own.values;
    const double noise = noise_variance(curves);
    for (Eigen::Index i = 0; i < own.values.size(); ++i) {
        const auto known = nearest(own, i, curves.basis * curves.basis.transpose());
        if (std::ssize(known) < kNearest) {
            continue;
        }
        std::vector<Eigen::Index> mixtures;
        mixtures.reserve(known.size());
        for (const Eigen::Index k : known) {
            mixtures.push_back(own.mixtures[static_cast<std::size_t>(k)]);
        }
        const Curve drawn = given_values(free, mixtures, measured(known), noise);
        const Eigen::Index target = own.mixtures[static_cast<std::size_t>(i)];
        const double expected = std::clamp(drawn.mean[target], model.range.low, model.range.high);
        residuals.push_back((measured[i] - expected) /
                            std::sqrt(drawn.covariance(target, target) + noise));
    }
}

} // namespace

CompositionCurves fit_composition_curves(const StructureModel &model) {
    std::vector<double> residuals;
    const std::vector<Curve> left_out = left_out_curves(model.curves);
    for (std::size_t compound = 0; compound < model.compounds.size(); ++compound) {
        add_residuals(model, model.curves.values.compounds[compound], left_out[compound],
                      residuals);
    }
    return {&model, calibrate(residuals)};
}

std::vector<Prediction> predict_curve_through(const CompositionCurves &curves,
                                              const CompoundFeatures &compound,
                                              const std::vector<OwnValue> &own) {
    return predict_curve_through(curves, curve_from_structure(*curves.model, compound), own);
}

std::vector<Prediction> predict_curve_through(const CompositionCurves &curves, const Curve &free,
                                              const std::vector<OwnValue> &own) {
    const StructureModel &model = *curves.model;
    const double noise = noise_variance(model.curves);
    std::vector<Eigen::Index> mixtures;
    Eigen::VectorXd values(static_cast<Eigen::Index>(own.size()));
    for (std::size_t i = 0; i < own.size(); ++i) {
        mixtures.push_back(static_cast<Eigen::Index>(own[i].mixture));
        values[static_cast<Eigen::Index>(i)] = own[i].value;
    }
    const Curve drawn = given_values(free, mixtures, values, noise);
    std::vector<Prediction> predictions;
    for (Eigen::Index e = 0; e < drawn.mean.size(); ++e) {
        predictions.push_back(
            curves.calibration.spread(std::clamp(drawn.mean[e], model.range.low, model.range.high),
                                      std::sqrt(drawn.covariance(e, e) + noise)));
    }
    return predictions;
}

} // namespace cospot::prediction
