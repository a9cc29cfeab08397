#include "expectation/expected_retention.h"

#include "expectation/compound_features.h"
#include "library/overview.h"
#include "matcher/retention_scale.h"
#include "matcher/system_model.h"
#include "prediction/composition_curve.h"
#include "prediction/mixture_kernel.h"
#include "prediction/neighbour_regression.h"
#include "prediction/structure_model.h"
#include "structures/structure_service.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <memory>
#include <numbers>

namespace cospot {

namespace {

void set_interval(ExpectedRetention &expected, const prediction::Prediction &prediction) {
    const prediction::Range range = possible_range(expected.quantity);
    const auto shown = [&](double x) {
        return matcher::from_model_scale(expected.quantity, std::clamp(x, range.low, range.high));
    };
    expected.prediction = prediction;
    expected.expected = shown(prediction.location);
    expected.low = shown(prediction.location - prediction.half_width());
    expected.high = shown(prediction.location + prediction.half_width());
}

/// The compound's own values on the system, as the matcher sees them.
std::optional<ExpectedRetention> measured(RetentionModels &models, const library::System &system,
                                          Quantity quantity, std::int64_t compound) {
    const auto *own = matcher::find_candidate(models.measured_on(system, quantity),
                                              static_cast<std::size_t>(compound));
    if (own == nullptr) {
        return std::nullopt;
    }
    ExpectedRetention expected;
    expected.system = system.name;
    expected.quantity = quantity;
    expected.basis = matcher::Basis::measured;
    expected.compounds = own->runs;
    set_interval(expected, {own->location, own->scale, own->freedom});
    return expected;
}

std::size_t position_of(const SystemFamily &family, const library::System &system) {
    const auto found =
        std::find_if(family.systems.begin(), family.systems.end(),
                     [&](const library::System &member) { return member.id == system.id; });
    return static_cast<std::size_t>(found - family.systems.begin());
}

/// The two mixtures, among those with an own value, that are most like the target.
std::vector<prediction::OwnValue> nearest_two(const FittedFamily &fitted, std::size_t target,
                                              std::vector<prediction::OwnValue> own) {
    const auto &mixtures = fitted.family().table.mixtures;
    const Eigen::MatrixXd alike = prediction::mixture_covariance({}, {mixtures[target]}, mixtures);
    std::stable_sort(own.begin(), own.end(), [&](const auto &a, const auto &b) {
        return alike(0, static_cast<Eigen::Index>(a.mixture)) >
               alike(0, static_cast<Eigen::Index>(b.mixture));
    });
    own.resize(std::min<std::size_t>(own.size(), 2));
    return own;
}

/// Reads across from two mixtures by the compounds measured in all three; nothing where too few
/// were. That regression works on R_F itself, where the structure model works on its arcsine.
std::optional<prediction::Prediction>
from_neighbours(FittedFamily &fitted, const prediction::CompoundFeatures &features,
                const std::vector<prediction::OwnValue> &nearest, std::size_t target) {
    const Quantity quantity = fitted.family().quantity;
    const bool is_rf = quantity == Quantity::Rf;
    std::vector<std::size_t> known;
    std::vector<double> values;
    for (const prediction::OwnValue &own : nearest) {
        known.push_back(own.mixture);
        values.push_back(is_rf ? matcher::from_model_scale(quantity, own.value) : own.value);
    }
    const auto *regression = fitted.neighbours(known, target);
    if (regression == nullptr) {
        return std::nullopt;
    }
    prediction::Prediction read =
        prediction::predict_from_neighbours(*regression, features, values);
    if (is_rf) {
        read.scale *= matcher::scale_slope(quantity, read.location);
        read.location = matcher::to_model_scale(quantity, read.location);
    }
    return read;
}

/// From the compound's own values in other mixtures.
std::optional<prediction::Prediction> transferred(FittedFamily &fitted,
                                                  const prediction::CompoundFeatures &features,
                                                  std::int64_t compound,
                                                  const std::vector<prediction::OwnValue> &own,
                                                  std::size_t target) {
    if (own.size() > 1) {
        const auto nearest = nearest_two(fitted, target, own);
        if (const auto read = from_neighbours(fitted, features, nearest, target)) {
            return read;
        }
    }
    const auto *curves = fitted.curves();
    if (curves == nullptr) {
        return std::nullopt;
    }
    const auto position = fitted.position_of(compound);
    const prediction::Curve free =
        position ? prediction::left_out_curve(curves->model->curves, *position)
                 : prediction::curve_from_structure(*curves->model, features);
    return prediction::predict_curve_through(*curves, free, own)[target];
}

/// Whether the compound is about as large as those measured: retention grows with size, and beyond
/// them a model only guesses. No larger than 1.25 times the largest, in heavy atoms.
bool is_of_measured_size(const prediction::RetentionTable &table,
                         const prediction::CompoundFeatures &compound) {
    constexpr double reach = 1.25;
    const auto &names = structure_service().descriptor_names();
    const auto heavy_atoms = static_cast<std::size_t>(
        std::find(names.begin(), names.end(), "heavy_atoms") - names.begin());
    double least = std::numeric_limits<double>::infinity();
    double most = 0.0;
    for (const prediction::CompoundFeatures &measured : table.compounds) {
        least = std::min(least, measured.descriptors[heavy_atoms]);
        most = std::max(most, measured.descriptors[heavy_atoms]);
    }
    const double size = compound.descriptors[heavy_atoms];
    return table.compounds.empty() || (size * reach >= least && size <= reach * most);
}

/// With fewer compounds nothing is known of what the change of mixture does.
constexpr std::size_t kFewestShared = 5;

/// How many compounds were measured in the target mixture and in one where this compound was.
std::size_t measured_in_both(const prediction::RetentionTable &table,
                             const std::vector<prediction::OwnValue> &own, std::size_t target) {
    std::set<std::size_t> in_target;
    std::set<std::size_t> in_own;
    for (const prediction::RetentionValue &value : table.values) {
        if (value.mixture == target) {
            in_target.insert(value.compound);
        }
        if (std::any_of(own.begin(), own.end(),
                        [&](const auto &one) { return one.mixture == value.mixture; })) {
            in_own.insert(value.compound);
        }
    }
    return static_cast<std::size_t>(
        std::count_if(in_target.begin(), in_target.end(),
                      [&](std::size_t compound) { return in_own.contains(compound); }));
}

/// The compound's values in other mixtures of the family.
std::vector<prediction::OwnValue> own_values(const SystemFamily &family,
                                             const std::optional<std::int64_t> &compound) {
    const auto found = compound ? family.own_values.find(*compound) : family.own_values.end();
    return found == family.own_values.end() ? std::vector<prediction::OwnValue>{} : found->second;
}

ExpectedRetention modelled(RetentionModels &models, const AskedCompound &compound,
                           const prediction::CompoundFeatures &features,
                           const library::System &system, Quantity quantity) {
    FittedFamily &fitted = models.family_of(system, quantity);
    const std::size_t target = position_of(fitted.family(), system);
    const auto own = own_values(fitted.family(), compound.id);
    ExpectedRetention expected;
    expected.system = system.name;
    expected.quantity = quantity;
    const bool is_in_table = compound.id && fitted.position_of(*compound.id);
    expected.compounds =
        prediction::measured_compounds(fitted.family().table) - (is_in_table ? 1 : 0);
    std::optional<prediction::Prediction> found;
    const std::size_t shared = measured_in_both(fitted.family().table, own, target);
    if (!own.empty() && shared < kFewestShared) {
        expected.refusal = fmt::format("{} compound{} measured both there and in a mixture where "
                                       "this one was, {} are needed",
                                       shared, shared == 1 ? "" : "s", kFewestShared);
        return expected;
    }
    if (!own.empty()) {
        expected.basis = matcher::Basis::transferred;
        found = transferred(fitted, features, *compound.id, own, target);
    } else if (!is_of_measured_size(fitted.family().table, features)) {
        expected.refusal = "much smaller or larger than the compounds measured";
        return expected;
    } else if (const auto *model = fitted.structure_model()) {
        found = prediction::predict_retention(*model, features)[target];
    }
    if (found) {
        set_interval(expected, *found);
    } else {
        expected.refusal = fmt::format("{} compounds measured, {} are needed", expected.compounds,
                                       prediction::kFewestCompounds);
    }
    return expected;
}

/// Of compounds of the library from there, of others from their structure.
std::vector<prediction::CompoundFeatures> features_of(RetentionModels &models,
                                                      const std::vector<AskedCompound> &compounds) {
    std::vector<std::int64_t> held;
    std::vector<std::string> others;
    for (const AskedCompound &compound : compounds) {
        if (compound.id) {
            held.push_back(*compound.id);
        } else {
            others.push_back(compound.smiles);
        }
    }
    const auto of_held = models.features().of(held);
    const auto of_others = cospot::features_of(others);
    auto next_held = of_held.begin();
    auto next_other = of_others.begin();
    std::vector<prediction::CompoundFeatures> features;
    features.reserve(compounds.size());
    for (const AskedCompound &compound : compounds) {
        features.push_back(compound.id ? *next_held++ : *next_other++);
    }
    return features;
}

} // namespace

std::vector<std::vector<ExpectedRetention>>
expected_retention(RetentionModels &models, const std::vector<AskedCompound> &compounds,
                   const std::vector<library::System> &systems,
                   const std::function<void(std::size_t done, std::size_t all)> &progress) {
    const std::vector<prediction::CompoundFeatures> features = features_of(models, compounds);
    std::vector<std::vector<ExpectedRetention>> result(compounds.size());
    for (std::size_t i = 0; i < compounds.size(); ++i) {
        progress(i, compounds.size());
        for (const library::System &system : systems) {
            for (const Quantity quantity :
                 library::quantities_on_system(models.database(), system.id)) {
                auto own = compounds[i].id ? measured(models, system, quantity, *compounds[i].id)
                                           : std::nullopt;
                result[i].push_back(
                    own ? *own : modelled(models, compounds[i], features[i], system, quantity));
            }
        }
    }
    return result;
}

} // namespace cospot
