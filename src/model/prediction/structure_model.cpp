#include "model/prediction/structure_model.h"

#include <algorithm>
#include <cmath>

namespace cospot::prediction {

namespace {

/// Weight of all mixtures together against one value of a mixture, in its calibration.
constexpr double kPooling = 30.0;

/// Residuals of the left-out values by mixture, in standard deviations of the model.
std::vector<std::vector<double>> left_out_residuals(const RetentionTable &table,
                                                    const CurveModel &curves, const Range &range) {
    std::vector<std::vector<double>> residuals(table.mixtures.size());
    std::vector<std::vector<RetentionValue>> by_compound(table.compounds.size());
    for (const auto &value : table.values) {
        by_compound[value.compound].push_back(value);
    }
    const std::vector<Curve> left_out = left_out_curves(curves);
    for (std::size_t compound = 0; compound < by_compound.size(); ++compound) {
        const Curve &curve = left_out[compound];
        for (const auto &value : by_compound[compound]) {
            const auto e = static_cast<Eigen::Index>(value.mixture);
            const double variance = curve.covariance(e, e) + noise_variance(curves);
            const double expected = std::clamp(curve.mean[e], range.low, range.high);
            residuals[value.mixture].push_back((value.value - expected) / std::sqrt(variance));
        }
    }
    return residuals;
}

std::vector<Calibration> calibrate_mixtures(const std::vector<std::vector<double>> &residuals) {
    std::vector<double> all;
    for (const auto &mixture : residuals) {
        all.insert(all.end(), mixture.begin(), mixture.end());
    }
    const Calibration pooled = calibrate(all);
    const double pooled_quantile = interval_quantile(all);
    std::vector<Calibration> calibrations(residuals.size(), pooled);
    for (std::size_t e = 0; e < residuals.size(); ++e) {
        if (!residuals[e].empty() && pooled_quantile > 0.0) {
            const auto count = static_cast<double>(residuals[e].size());
            const double own = interval_quantile(residuals[e]) / pooled_quantile;
            calibrations[e].factor *= (count * own + kPooling) / (count + kPooling);
        }
    }
    return calibrations;
}

/// The model without calibrations.
StructureModel fit_curves_only(const RetentionTable &table, const Range &range,
                               DescriptorScale scale, const CompoundGrams &grams,
                               const CurveParameters &parameters) {
    StructureModel model;
    model.compounds = table.compounds;
    model.scale = std::move(scale);
    model.range = range;
    model.curves = fit_curves(table, compound_kernel(grams, parameters.weights), parameters);
    return model;
}

/// With the parameters that `choose` takes for the alikeness of the compounds.
template <class Choose>
std::optional<StructureModel> fit(const RetentionTable &table, const Range &range,
                                  const Choose &choose) {
    if (measured_compounds(table) < kFewestCompounds) {
        return std::nullopt;
    }
    const DescriptorScale scale = fit_scale(table.compounds);
    const CompoundGrams grams = compare_compounds(scale, table.compounds, table.compounds);
    StructureModel model = fit_curves_only(table, range, scale, grams, choose(grams));
    model.calibrations = calibrate_mixtures(left_out_residuals(table, model.curves, range));
    return model;
}

} // namespace

std::optional<StructureModel> fit_structure_model(const RetentionTable &table, const Range &range) {
    return fit(table, range,
               [&](const CompoundGrams &grams) { return search_parameters(table, grams); });
}

std::optional<StructureModel> fit_structure_model(const RetentionTable &table, const Range &range,
                                                  const CurveParameters &parameters) {
    return fit(table, range, [&](const CompoundGrams &) { return parameters; });
}

StructureFit fit_of(const StructureModel &model) {
    return {model.curves.parameters, model.calibrations};
}

StructureModel structure_model_from(const RetentionTable &table, const Range &range,
                                    const StructureFit &fit) {
    const DescriptorScale scale = fit_scale(table.compounds);
    const CompoundGrams grams = compare_compounds(scale, table.compounds, table.compounds);
    StructureModel model = fit_curves_only(table, range, scale, grams, fit.parameters);
    model.calibrations = fit.calibrations;
    return model;
}

Curve curve_from_structure(const StructureModel &model, const CompoundFeatures &compound) {
    const auto &weights = model.curves.parameters.weights;
    const CompoundGrams cross = compare_compounds(model.scale, model.compounds, {compound});
    const CompoundGrams self = compare_compounds(model.scale, {compound}, {compound});
    return predict_curve(model.curves, compound_kernel(cross, weights).col(0),
                         compound_kernel(self, weights)(0, 0));
}

std::vector<Prediction> predict_retention(const StructureModel &model,
                                          const CompoundFeatures &compound) {
    const Curve curve = curve_from_structure(model, compound);
    std::vector<Prediction> predictions;
    for (std::size_t e = 0; e < model.calibrations.size(); ++e) {
        const auto index = static_cast<Eigen::Index>(e);
        const double variance = curve.covariance(index, index) + noise_variance(model.curves);
        predictions.push_back(model.calibrations[e].spread(
            std::clamp(curve.mean[index], model.range.low, model.range.high), std::sqrt(variance)));
    }
    return predictions;
}

} // namespace cospot::prediction
