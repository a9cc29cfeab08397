#include "expectation/expected_retention.h"

#include "evidence/fitted_system.h"
#include "expectation/compound_features.h"
#include "expectation/system_family.h"
#include "library/measurements.h"
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

prediction::Range range_of(Quantity quantity) {
    return quantity == Quantity::Rf ? prediction::Range{0.0, std::numbers::pi / 2}
                                    : prediction::Range{};
}

void set_interval(ExpectedRetention &expected, const prediction::Prediction &prediction) {
    const prediction::Range range = range_of(expected.quantity);
    const auto shown = [&](double x) {
        return matcher::from_model_scale(expected.quantity, std::clamp(x, range.low, range.high));
    };
    expected.prediction = prediction;
    expected.expected = shown(prediction.location);
    expected.low = shown(prediction.location - prediction.half_width());
    expected.high = shown(prediction.location + prediction.half_width());
}

/// Fits each system once, however many compounds are asked for.
class FittedSystems {
public:
    explicit FittedSystems(library::Database &database) : database_(&database) {}

    const matcher::SystemModel &on(const library::System &system, Quantity quantity) {
        const auto [entry, is_new] = fitted_.try_emplace({system.id, quantity});
        if (is_new) {
            entry->second = fitted_system(*database_, system.id, quantity);
        }
        return entry->second;
    }

private:
    library::Database *database_;
    std::map<std::pair<std::int64_t, Quantity>, matcher::SystemModel> fitted_;
};

/// The compound's own values on the system, as the matcher sees them.
std::optional<ExpectedRetention> measured(FittedSystems &fitted, const library::System &system,
                                          Quantity quantity, std::int64_t compound) {
    const auto *own =
        matcher::find_candidate(fitted.on(system, quantity), static_cast<std::size_t>(compound));
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

/// Means of the compound's own values in the mixtures of a family, on the model scale.
std::vector<prediction::OwnValue> own_values(library::Database &database,
                                             const SystemFamily &family, std::int64_t compound) {
    std::vector<prediction::OwnValue> own;
    for (std::size_t mixture = 0; mixture < family.systems.size(); ++mixture) {
        double sum = 0.0;
        double count = 0.0;
        for (const library::HeldValue &held :
             library::values_on_system(database, family.systems[mixture].id, family.quantity)) {
            if (held.compound == compound) {
                sum += matcher::to_model_scale(family.quantity, held.value);
                count += 1.0;
            }
        }
        if (count > 0.0) {
            own.push_back({mixture, sum / count});
        }
    }
    return own;
}

/// A family with the models fitted to it as far as they were needed: they take seconds.
struct FittedFamily {
    SystemFamily family;
    bool model_was_tried = false;
    std::optional<prediction::StructureModel> model;       ///< for compounds without own values
    std::optional<prediction::StructureModel> curve_model; ///< for curves through own values
    std::optional<prediction::CompositionCurves> curves;   ///< of `curve_model`
};

/// The family's model of structures; nothing where too few compounds were measured.
const std::optional<prediction::StructureModel> &structure_model(FittedFamily &fitted) {
    if (!fitted.model_was_tried) {
        fitted.model_was_tried = true;
        fitted.model =
            prediction::fit_structure_model(fitted.family.table, range_of(fitted.family.quantity));
    }
    return fitted.model;
}

/// Fits each family once for all compounds that are not in it, and anew for one that is.
class FamilyModels {
public:
    explicit FamilyModels(library::Database &database) : database_(&database) {}

    FittedFamily &fitted(const library::System &system, Quantity quantity,
                         std::optional<std::int64_t> without) {
        for (auto &[key, fitted] : fitted_) {
            const bool holds =
                std::any_of(fitted->family.systems.begin(), fitted->family.systems.end(),
                            [&](const library::System &member) { return member.id == system.id; });
            if (holds && key == std::pair(quantity, without)) {
                return *fitted;
            }
        }
        auto fitted = std::make_unique<FittedFamily>();
        fitted->family = family_of(*database_, system, quantity, without);
        fitted_.emplace_back(std::pair(quantity, without), std::move(fitted));
        return *fitted_.back().second;
    }

private:
    library::Database *database_;
    std::vector<
        std::pair<std::pair<Quantity, std::optional<std::int64_t>>, std::unique_ptr<FittedFamily>>>
        fitted_;
};

std::size_t position_of(const SystemFamily &family, const library::System &system) {
    const auto found =
        std::find_if(family.systems.begin(), family.systems.end(),
                     [&](const library::System &member) { return member.id == system.id; });
    return static_cast<std::size_t>(found - family.systems.begin());
}

/// The two mixtures, among those with an own value, that are most like the target.
std::vector<prediction::OwnValue> nearest_two(const FittedFamily &fitted, std::size_t target,
                                              std::vector<prediction::OwnValue> own) {
    const auto &mixtures = fitted.family.table.mixtures;
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
from_neighbours(const FittedFamily &fitted, const prediction::CompoundFeatures &features,
                const std::vector<prediction::OwnValue> &nearest, std::size_t target) {
    const Quantity quantity = fitted.family.quantity;
    const bool is_rf = quantity == Quantity::Rf;
    const auto on_scale = [&](double value) {
        return is_rf ? matcher::from_model_scale(quantity, value) : value;
    };
    prediction::RetentionTable table = fitted.family.table;
    for (prediction::RetentionValue &value : table.values) {
        value.value = on_scale(value.value);
    }
    std::vector<std::size_t> known;
    std::vector<double> values;
    for (const prediction::OwnValue &own : nearest) {
        known.push_back(own.mixture);
        values.push_back(on_scale(own.value));
    }
    const auto regression = prediction::fit_neighbours(
        table, known, target, is_rf ? prediction::Range{0.0, 1.0} : prediction::Range{});
    if (!regression) {
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

/// From the compound's own values in other mixtures; nothing where too few compounds were measured.
std::optional<prediction::Prediction> transferred(FittedFamily &fitted,
                                                  const prediction::CompoundFeatures &features,
                                                  const std::vector<prediction::OwnValue> &own,
                                                  std::size_t target) {
    if (own.size() > 1) {
        const auto nearest = nearest_two(fitted, target, own);
        if (const auto read = from_neighbours(fitted, features, nearest, target)) {
            return read;
        }
    }
    if (!fitted.curve_model) {
        fitted.curve_model =
            prediction::fit_structure_model(fitted.family.table, range_of(fitted.family.quantity),
                                            prediction::SearchGoal::own_curves);
        if (!fitted.curve_model) {
            return std::nullopt;
        }
        fitted.curves = prediction::fit_composition_curves(*fitted.curve_model);
    }
    return prediction::predict_curve_through(*fitted.curves, features, own)[target];
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

ExpectedRetention modelled(library::Database &database, FamilyModels &models,
                           const AskedCompound &compound,
                           const prediction::CompoundFeatures &features,
                           const library::System &system, Quantity quantity) {
    FittedFamily &fitted = models.fitted(system, quantity, compound.id);
    const std::size_t target = position_of(fitted.family, system);
    const auto own = compound.id ? own_values(database, fitted.family, *compound.id)
                                 : std::vector<prediction::OwnValue>{};
    ExpectedRetention expected;
    expected.system = system.name;
    expected.quantity = quantity;
    expected.compounds = prediction::measured_compounds(fitted.family.table);
    std::optional<prediction::Prediction> found;
    const std::size_t shared = measured_in_both(fitted.family.table, own, target);
    if (!own.empty() && shared < kFewestShared) {
        expected.refusal = fmt::format("{} compound{} measured both there and in a mixture where "
                                       "this one was, {} are needed",
                                       shared, shared == 1 ? "" : "s", kFewestShared);
        return expected;
    }
    if (!own.empty()) {
        expected.basis = matcher::Basis::transferred;
        found = transferred(fitted, features, own, target);
    } else if (!is_of_measured_size(fitted.family.table, features)) {
        expected.refusal = "much smaller or larger than the compounds measured";
        return expected;
    } else if (const auto &model = structure_model(fitted)) {
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

} // namespace

std::vector<std::vector<ExpectedRetention>>
expected_retention(library::Database &database, const std::vector<AskedCompound> &compounds,
                   const std::vector<library::System> &systems,
                   const std::function<void(std::size_t done, std::size_t all)> &progress) {
    std::vector<std::string> smiles;
    smiles.reserve(compounds.size());
    for (const AskedCompound &compound : compounds) {
        smiles.push_back(compound.smiles);
    }
    const std::vector<prediction::CompoundFeatures> features = features_of(smiles);
    FamilyModels models(database);
    FittedSystems fitted(database);
    std::vector<std::vector<ExpectedRetention>> result(compounds.size());
    for (std::size_t i = 0; i < compounds.size(); ++i) {
        progress(i, compounds.size());
        for (const library::System &system : systems) {
            for (const Quantity quantity : library::quantities_on_system(database, system.id)) {
                auto own = compounds[i].id ? measured(fitted, system, quantity, *compounds[i].id)
                                           : std::nullopt;
                result[i].push_back(
                    own ? *own
                        : modelled(database, models, compounds[i], features[i], system, quantity));
            }
        }
    }
    return result;
}

} // namespace cospot
