#include "expectation/expected_retention.h"

#include "evidence/library_evidence.h"
#include "expectation/compound_features.h"
#include "model/matcher/retention_scale.h"
#include "model/matcher/system_model.h"
#include "model/prediction/structure_model.h"
#include "model/transfer/relation.h"
#include "shared/text.h"
#include "structures/structure_service.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <optional>

namespace cospot {

namespace {

/// So many systems are compared with each other and with all related ones.
constexpr std::ptrdiff_t kAtOnce = 12;

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

/// From the compound's own values on the system or, through the compounds measured on both, on
/// others.
std::optional<ExpectedRetention> known(const LibraryEvidence &evidence, std::size_t system,
                                       library::CompoundId compound) {
    const auto index = index_of_compound(evidence, compound);
    const matcher::SystemModel &model = evidence.knowledge.systems[system];
    const auto *density = index ? matcher::find_candidate(model, *index) : nullptr;
    if (density == nullptr) {
        return std::nullopt;
    }
    ExpectedRetention expected;
    expected.system = evidence.systems[system].system.name;
    expected.quantity = model.quantity;
    expected.basis = density->basis;
    expected.compounds = density->basis == matcher::Basis::measured
                             ? density->runs
                             : static_cast<std::size_t>(std::count_if(
                                   model.candidates.begin(), model.candidates.end(),
                                   [](const matcher::CandidateDensity &candidate) {
                                       return candidate.basis == matcher::Basis::measured;
                                   }));
    set_interval(expected, {density->location, density->scale, density->freedom});
    return expected;
}

std::size_t position_of(const SystemFamily &family, const library::System &system) {
    const auto found =
        std::find_if(family.systems.begin(), family.systems.end(),
                     [&](const library::System &member) { return member.id == system.id; });
    return static_cast<std::size_t>(found - family.systems.begin());
}

/// Why the compound is too small or too large for a model of those measured, beyond which it only
/// guesses, since retention grows with size; empty where it is not. No larger than 1.25 times the
/// largest, in heavy atoms.
std::string not_of_measured_size(const prediction::RetentionTable &table,
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
    if (table.compounds.empty() || (size * reach >= least && size <= reach * most)) {
        return "";
    }
    return fmt::format("much {} than the compounds measured ({}; they have {:.0f} to {:.0f})",
                       size > most ? "larger" : "smaller",
                       counted(static_cast<std::size_t>(size), "heavy atom"), least, most);
}

/// How many compounds were measured in the target mixture and in one where this compound was.
std::size_t measured_in_both(const SystemFamily &family, const std::vector<OwnValue> &own,
                             std::size_t target) {
    const auto is_in = [](const std::vector<OwnValue> &values, std::size_t mixture) {
        return std::any_of(values.begin(), values.end(),
                           [&](const OwnValue &one) { return one.mixture == mixture; });
    };
    return static_cast<std::size_t>(
        std::count_if(family.own_values.begin(), family.own_values.end(), [&](const auto &entry) {
            const std::vector<OwnValue> &values = entry.second;
            return is_in(values, target) &&
                   std::any_of(own.begin(), own.end(),
                               [&](const OwnValue &one) { return is_in(values, one.mixture); });
        }));
}

/// Why the compound's values in other mixtures say nothing about this one.
std::string not_transferred(std::size_t shared) {
    constexpr auto needed = static_cast<std::size_t>(transfer::kFewestCompounds);
    return shared < needed
               ? fmt::format("{} measured both there and in a mixture where this one was, {} are "
                             "needed",
                             counted(shared, "compound"), needed)
               : "the values there and in other mixtures do not go together";
}

/// From the structure; not of a compound that was measured in another mixture.
ExpectedRetention modelled(RetentionModels &models, const AskedCompound &compound,
                           const prediction::CompoundFeatures &features,
                           const library::System &system, Quantity quantity) {
    FittedFamily &fitted = models.family_of(system, quantity);
    const SystemFamily &family = fitted.family();
    const std::size_t target = position_of(family, system);
    ExpectedRetention expected;
    expected.system = system.name;
    expected.quantity = quantity;
    expected.compounds = prediction::measured_compounds(family.table);
    const auto own = compound.id ? family.own_values.find(*compound.id) : family.own_values.end();
    if (own != family.own_values.end()) {
        expected.refusal = not_transferred(measured_in_both(family, own->second, target));
        return expected;
    }
    // With too few compounds no structure at all can be predicted, whatever its size.
    if (expected.compounds < prediction::kFewestCompounds) {
        expected.refusal =
            fmt::format("{} measured, {} are needed", counted(expected.compounds, "compound"),
                        prediction::kFewestCompounds);
        return expected;
    }
    expected.refusal = not_of_measured_size(family.table, features);
    const auto *model = expected.refusal.empty() ? fitted.structure_model() : nullptr;
    if (model != nullptr) {
        set_interval(expected, prediction::predict_retention(*model, features)[target]);
    } else if (expected.refusal.empty()) {
        expected.refusal = "no model could be fitted to the compounds measured";
    }
    return expected;
}

/// Of compounds of the library from there, of others from their structure.
std::vector<prediction::CompoundFeatures> features_of(RetentionModels &models,
                                                      const std::vector<AskedCompound> &compounds) {
    std::vector<library::CompoundId> held;
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
    const bool is_any_held = std::any_of(compounds.begin(), compounds.end(),
                                         [](const AskedCompound &one) { return one.id; });
    for (auto first = systems.begin(); first != systems.end();) {
        const auto last = first + std::min(kAtOnce, systems.end() - first);
        const std::vector<ModelledSystem> asked = models.asked_on({first, last});
        const LibraryEvidence *evidence = is_any_held ? &models.known_on(asked) : nullptr;
        for (std::size_t i = 0; i < compounds.size(); ++i) {
            progress(i, compounds.size());
            for (std::size_t s = 0; s < asked.size(); ++s) {
                const auto own =
                    compounds[i].id ? known(*evidence, s, *compounds[i].id) : std::nullopt;
                result[i].push_back(own ? *own
                                        : modelled(models, compounds[i], features[i],
                                                   asked[s].system, asked[s].quantity));
            }
        }
        first = last;
    }
    return result;
}

} // namespace cospot
