#include "identification/identification.h"

#include "evidence/comparable_quantity.h"
#include "identification/beside_standards.h"
#include "identification/candidate_lines.h"
#include "library/proofs.h"
#include "shared/grouped.h"
#include "shared/quantity.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <span>
#include <utility>

namespace cospot {

namespace {

using matcher::Censoring;
using matcher::Ranking;

/// Below this the density of unlisted compounds rests on too few values.
constexpr std::size_t kFewCompounds = 5;

/// Error of a probability from sums that were cut off.
constexpr double kErrorWorthSaying = 0.005;

/// Before measuring, of a feature in a run that does not fit the library: chance explains it as
/// well.
constexpr double kUnlistedWhereNothingFits = 0.5;

std::vector<std::string> names_in_set(const Ranking &ranking,
                                      const matcher::Recalibration &recalibration,
                                      KnownCompounds &compounds) {
    const matcher::ChosenSet set = matcher::chosen_set(ranking, recalibration);
    std::vector<std::string> names;
    bool unlisted_is_due = set.unlisted;
    for (const std::size_t position : set.candidates) {
        const matcher::RankedCandidate &candidate = ranking.candidates[position];
        if (unlisted_is_due && ranking.unlisted >= candidate.probability) {
            names.emplace_back("unlisted");
            unlisted_is_due = false;
        }
        names.push_back(compounds.at(candidate.compound).name);
    }
    if (unlisted_is_due) {
        names.emplace_back("unlisted");
    }
    return names;
}

/// Why there is nothing to compare with, and what to give instead.
std::string nothing_known(const FeatureObservation &observation, const ModelledSystem &modelled,
                          bool is_peak) {
    std::string words = fmt::format("nothing to compare with: the library holds no {} on {}",
                                    to_text(observation.quantity), observation.system);
    if (!modelled.held_instead.empty()) {
        const ComparableQuantity &held = comparable_quantity(modelled.held_instead.front());
        words += fmt::format(", but {}", held.values);
        words += is_peak ? fmt::format(": give {}", held.options) : "";
    }
    return words;
}

void warn_of_observation(const FeatureObservation &observation, const ModelledSystem &modelled,
                         const matcher::SystemModel &model, bool is_peak, bool has_standards,
                         std::vector<std::string> &warnings) {
    switch (matcher::censoring(observation.quantity, observation.value)) {
    case Censoring::at_start:
        warnings.emplace_back("at the start: says only that it does not move here; weak evidence");
        break;
    case Censoring::at_front:
        warnings.emplace_back("at the front: says only that it is not held here; weak evidence");
        break;
    case Censoring::none:
        break;
    }
    const std::size_t known = matcher::candidate_count(model);
    if (observation.is_outside_library) {
        return; // a note says so
    }
    if (known == 0 && has_standards) {
        warnings.push_back(
            fmt::format("the library holds no {} on {}: only the standards beside it "
                        "tell what it is",
                        to_text(observation.quantity), observation.system));
    } else if (known == 0) {
        warnings.push_back(nothing_known(observation, modelled, is_peak));
    } else if (known < kFewCompounds) {
        warnings.push_back(fmt::format("the library holds only {} compound{} on {}: what an "
                                       "unlisted one would show is a guess",
                                       known, known == 1 ? "" : "s", observation.system));
    } else if (model.spread.is_assumed()) {
        warnings.push_back(fmt::format("no compound was measured in two runs on {}: the spread is "
                                       "assumed",
                                       observation.system));
    }
    if (modelled.system.retired) {
        warnings.push_back(observation.system + " is retired: its values do not count");
    }
}

/// Of the likely candidates: a mislabelled value makes its compound look like two.
void warn_of_disagreeing_values(const Ranking &ranking,
                                std::span<const matcher::Observation> observations,
                                const LibraryEvidence &evidence, KnownCompounds &compounds,
                                std::vector<std::string> &warnings) {
    constexpr double likely = 0.02;
    constexpr std::size_t most = 3;
    std::size_t said = 0;
    for (const matcher::RankedCandidate &one : ranking.candidates) {
        if (one.probability < likely || said == most) {
            return;
        }
        for (const matcher::Observation &observation : observations) {
            const auto *held = matcher::find_candidate(
                evidence.knowledge.systems[observation.system], one.compound);
            if (held != nullptr && held->disagrees && said < most) {
                ++said;
                warnings.push_back(fmt::format(
                    "the library's values of {} on {} lie too far apart to be of one compound: one "
                    "may be mislabelled (cospot audit shows them)",
                    compounds.at(one.compound).name,
                    evidence.systems[observation.system].system.name));
            }
        }
    }
}

std::string level_of(const Feature &feature, const Ranking &ranking) {
    const std::set<std::string> systems = systems_of(feature);
    if (systems.empty() || ranking.candidates.empty()) {
        return "unknown (level 4 of Sumner et al. 2007)";
    }
    if (systems.size() == 1) {
        return "tentative proposal from retention on one system (below level 2 of Sumner et al. "
               "2007)";
    }
    return fmt::format("tentative proposal from retention on {} systems (below level 1 of Sumner "
                       "et al. 2007, which asks for an orthogonal property)",
                       systems.size());
}

/// What is said of a feature that nothing was observed of: what was believed before.
Identification as_before(const Feature &feature, const LibraryEvidence &evidence,
                         const IdentificationOptions &options) {
    Identification result;
    result.warnings = feature.warnings;
    result.other_count = possible_compounds(evidence);
    result.unlisted = options.prior.feature.unlisted;
    result.other = 1.0 - result.unlisted;
    result.level = level_of(feature, {});
    return result;
}

matcher::Recalibration recalibration_of(const Feature &feature, const LibraryEvidence &evidence,
                                        const IdentificationOptions &options) {
    const auto kind = proved_kind(feature, evidence);
    const auto known = kind ? options.recalibrations.find(*kind) : options.recalibrations.end();
    return known == options.recalibrations.end() ? matcher::Recalibration{} : known->second;
}

Identification identified(const Feature &feature, Ranking as_computed, const FurtherRatios &further,
                          std::span<const matcher::Observation> observations,
                          std::span<const EvidenceStandard *const> standards,
                          const matcher::HeldElsewhere &elsewhere, const LibraryEvidence &evidence,
                          KnownCompounds &compounds, const IdentificationOptions &options) {
    Identification result;
    result.warnings = feature.warnings;
    for (std::size_t i = 0; i < observations.size(); ++i) {
        const std::size_t system = observations[i].system;
        const bool has_standards = observations[i].standards && !observations[i].standards->empty();
        warn_of_observation(feature.observations[i], evidence.systems[system],
                            evidence.knowledge.systems[system],
                            feature.retention_time_min.has_value(), has_standards, result.warnings);
    }
    if (as_computed.candidates.empty()) { // no compound is known there
        result.level = level_of(feature, as_computed);
        return result;
    }
    result.warnings.insert(result.warnings.end(), further.warnings.begin(), further.warnings.end());
    const matcher::Recalibration recalibration = recalibration_of(feature, evidence, options);
    matcher::note_bases(as_computed, observations, evidence.knowledge.systems);
    const Ranking ranking = matcher::recalibrated(as_computed, recalibration);
    list_candidates(result, ranking, observations, further.log_ratios, evidence, compounds,
                    options.top);
    warn_of_disagreeing_values(ranking, observations, evidence, compounds, result.warnings);
    result.not_measured = elsewhere.share * result.unlisted;
    result.not_measured_count = elsewhere.compounds;
    result.unlisted -= result.not_measured;
    result.other += result.not_measured;
    result.standards = beside_standards(feature, observations, standards, ranking, evidence);
    if (options.fills_set) {
        result.set = names_in_set(ranking, recalibration, compounds);
    }
    result.level = level_of(feature, ranking);
    return result;
}

std::vector<std::string> notes_on(const matcher::SampleRanking &rankings) {
    std::vector<std::string> notes;
    if (rankings.share_is_learned) {
        notes.push_back(fmt::format("share of features outside the library, as the sample itself "
                                    "shows it: {:.2f}",
                                    rankings.unlisted_share));
    }
    if (rankings.error > kErrorWorthSaying) {
        notes.push_back(fmt::format(
            "too many features share too many candidates for an exact sum: probabilities are "
            "{} to {:.2f}",
            rankings.error_basis == matcher::ErrorBasis::estimate ? "thought good" : "good",
            rankings.error));
    }
    return notes;
}

/// What a registered run holds of some of its features: those that have observations, in order.
RegisteredRun part_of(const RegisteredRun &run, std::span<const Feature *const> features) {
    RegisteredRun part;
    part.standards = run.standards;
    for (std::size_t i = 0; i < run.features.size(); ++i) {
        if (std::find(features.begin(), features.end(), run.features[i]) != features.end()) {
            part.features.push_back(run.features[i]);
            part.observed.push_back(run.observed[i]);
            part.further.push_back(run.further[i]);
            part.cospots.push_back(run.cospots[i]);
        }
    }
    return part;
}

SampleIdentification identify_sample(std::vector<const Feature *> features, RegisteredRun run,
                                     const LibraryEvidence &evidence, KnownCompounds &compounds,
                                     const IdentificationOptions &options) {
    matcher::SampleRanking rankings =
        matcher::rank_sample(run.observed, evidence.knowledge, evidence.nearby, options.prior);
    SampleIdentification sample;
    std::size_t next = 0;
    for (const Feature *feature : features) {
        if (feature->observations.empty()) {
            sample.features.push_back(as_before(*feature, evidence, options));
            continue;
        }
        sample.features.push_back(identified(*feature, rankings.features[next], run.further[next],
                                             run.observed[next].observations, run.standards,
                                             rankings.elsewhere, evidence, compounds, options));
        sample.features.back().compounds = rankings.compounds;
        sample.features.back().cospots = std::move(run.cospots[next]);
        ++next;
    }
    sample.asked = std::move(features);
    sample.notes = notes_on(rankings);
    sample.observed = std::move(run.observed);
    sample.ranking = std::move(rankings);
    return sample;
}

} // namespace

RunIdentification identify_run(std::span<const Feature *const> features,
                               const LibraryEvidence &evidence, KnownCompounds &compounds,
                               const IdentificationOptions &options) {
    RegisteredRun run =
        register_features(features, evidence, compounds, options.prior, options.search);
    IdentificationOptions how = options;
    if (std::any_of(run.places.begin(), run.places.end(),
                    [](const RunPlace &place) { return !place.found.fits; })) {
        how.prior.feature.unlisted =
            std::max(how.prior.feature.unlisted, kUnlistedWhereNothingFits);
        how.prior.learn_unlisted = false;
    }
    RunIdentification result;
    result.notes = std::move(run.notes);
    result.places = std::move(run.places);
    result.needs_attention = run.needs_attention;
    auto lanes = lanes_of(features);
    for (std::vector<const Feature *> &lane : lanes) {
        RegisteredRun part = lanes.size() > 1 ? part_of(run, lane) : std::move(run);
        result.samples.push_back(
            identify_sample(std::move(lane), std::move(part), evidence, compounds, how));
    }
    return result;
}

std::set<std::string> systems_of(const Feature &feature) {
    std::set<std::string> systems;
    for (const FeatureObservation &observation : feature.observations) {
        systems.insert(observation.system);
    }
    return systems;
}

std::optional<ProvedKind> proved_kind(const Feature &feature, const LibraryEvidence &evidence) {
    std::set<Technique> techniques;
    std::set<std::size_t> models;
    for (const FeatureObservation &observation : feature.observations) {
        const std::size_t model = model_index(evidence, observation);
        models.insert(model);
        techniques.insert(evidence.systems[model].system.technique);
    }
    if (techniques.size() != 1) {
        return std::nullopt;
    }
    return ProvedKind{
        *techniques.begin(), is_little_measured(evidence, models),
        std::min<std::size_t>(library::kMostProvedSystems, systems_of(feature).size())};
}

namespace {} // namespace

std::vector<std::vector<const Feature *>> lanes_of(std::span<const Feature *const> features) {
    return grouped(std::vector(features.begin(), features.end()), [](const Feature *feature) {
        return std::pair(feature->sample, feature->lane);
    });
}

std::vector<const Feature *> all_of(std::span<const Feature> features) {
    std::vector<const Feature *> all;
    all.reserve(features.size());
    for (const Feature &feature : features) {
        all.push_back(&feature);
    }
    return all;
}

std::vector<std::vector<const Feature *>> runs_of(std::span<const Feature> features) {
    return grouped(all_of(features), [](const Feature *feature) { return feature->run; });
}

} // namespace cospot
