#include "advise/feature_advice.h"

#include "advise/outlook.h"
#include "evidence/compound_traits.h"
#include "library/compounds.h"

#include <algorithm>
#include <map>
#include <optional>

namespace cospot {

namespace {

constexpr double kShareConsidered = 0.99;
constexpr std::size_t kMostConsidered = 25;
constexpr std::size_t kStandards = 4; ///< of the likeliest candidates
constexpr std::size_t kTraitsSampled = 300;
constexpr double kWorthTelling = 0.02; ///< bits

/// The candidates that advice is about; the last probability is of everything else.
struct Hypotheses {
    std::vector<double> probabilities;
    std::vector<std::optional<library::CompoundId>> compounds;
    std::vector<std::size_t> indices; ///< in the evidence
    std::vector<std::string> names;
    std::vector<CompoundTraits> traits;
};

Hypotheses hypotheses_of(const Identification &identification, AdviceSources &sources) {
    Hypotheses hypotheses;
    const double listed = 1.0 - identification.unlisted - identification.not_measured;
    double held = 0.0;
    std::vector<ProposedCompound> likeliest = identification.candidates;
    std::stable_sort(likeliest.begin(), likeliest.end(),
                     [](const auto &a, const auto &b) { return a.probability > b.probability; });
    for (const ProposedCompound &candidate : likeliest) {
        if (held >= kShareConsidered * listed || hypotheses.names.size() == kMostConsidered) {
            break;
        }
        held += candidate.probability;
        const bool is_held = candidate.compound < sources.evidence.compound_ids.size();
        const std::optional<library::CompoundId> id =
            is_held ? std::optional(sources.evidence.compound_ids[candidate.compound])
                    : std::nullopt;
        const auto compound = is_held
                                  ? library::find_compound(sources.database, *id)
                                  : library::find_by_inchikey(sources.database, candidate.inchikey);
        hypotheses.probabilities.push_back(candidate.probability);
        hypotheses.compounds.push_back(id);
        hypotheses.indices.push_back(candidate.compound);
        hypotheses.names.push_back(candidate.name);
        hypotheses.traits.push_back(traits_of(sources.database, compound));
    }
    hypotheses.probabilities.push_back(1.0 - held);
    return hypotheses;
}

/// The most bits for the effort first.
void sort_by_gain(std::vector<AdvisedMeasurement> &measurements) {
    std::stable_sort(measurements.begin(), measurements.end(), [](const auto &a, const auto &b) {
        return a.bits_per_effort() > b.bits_per_effort();
    });
}

/// Gathers the measurements that are worth telling.
class Advice {
public:
    Advice(const Hypotheses &hypotheses, const Efforts &efforts)
        : hypotheses_(&hypotheses), efforts_(&efforts) {}

    void add(const std::string &name, const std::string &kind, const Outlook &outlook) {
        add(name, kind, outlook.known,
            expected_gain(hypotheses_->probabilities, outlook.forecasts));
    }
    void add(const std::string &name, const std::string &kind,
             const std::vector<std::vector<double>> &likelihoods) {
        add(name, kind, hypotheses_->names.size(),
            expected_gain(hypotheses_->probabilities, likelihoods));
    }
    [[nodiscard]] std::vector<AdvisedMeasurement> sorted() {
        sort_by_gain(measurements_);
        return std::move(measurements_);
    }

private:
    void add(const std::string &name, const std::string &kind, std::size_t known,
             const ExpectedGain &gain) {
        if (gain.bits >= kWorthTelling) {
            measurements_.push_back({name, kind, known, gain, effort_of(*efforts_, name, kind)});
        }
    }

    const Hypotheses *hypotheses_;
    const Efforts *efforts_;
    std::vector<AdvisedMeasurement> measurements_;
};

void add_systems(const Feature &feature, const Hypotheses &hypotheses, AdviceSources &sources,
                 Advice &advice) {
    for (const MeasuredSystem *system :
         sources.systems.holding_several(hypotheses.compounds, systems_of(feature))) {
        advice.add(system->name, std::string(to_text(system->technique)),
                   outlook_on(system->model, hypotheses.compounds));
    }
}

/// Whether the standard ran on the plate or in the run of the feature: that measurement is made.
bool ran_beside(const Feature &feature, const FeatureObservation &observation, std::size_t compound,
                const LibraryEvidence &evidence) {
    return std::any_of(evidence.standards.begin(), evidence.standards.end(),
                       [&](const EvidenceStandard &one) {
                           const RunStandard &standard = one.standard;
                           return one.compound == compound &&
                                  (standard.run.empty() || standard.run == feature.run) &&
                                  standard.observation.system == observation.system &&
                                  standard.observation.quantity == observation.quantity;
                       });
}

void add_standards(const Feature &feature, const Hypotheses &hypotheses, AdviceSources &sources,
                   Advice &advice) {
    for (const FeatureObservation &observation : feature.observations) {
        const MeasuredSystem &system =
            sources.systems.named(observation.system, observation.quantity);
        if (matcher::censoring(observation.quantity, observation.value) !=
            matcher::Censoring::none) {
            continue;
        }
        for (std::size_t i = 0; i < std::min(kStandards, hypotheses.names.size()); ++i) {
            if (ran_beside(feature, observation, hypotheses.indices[i], sources.evidence)) {
                continue;
            }
            if (const auto outlook = outlook_beside(system.model, hypotheses.compounds, i)) {
                advice.add("beside " + hypotheses.names[i] + " on " + observation.system,
                           "standard", *outlook);
            }
        }
    }
}

bool is_spot(const Feature &feature) {
    return std::any_of(feature.observations.begin(), feature.observations.end(),
                       [](const auto &one) { return one.quantity == Quantity::Rf; });
}

void add_stains(const Feature &feature, const Hypotheses &hypotheses, const AdviceSources &sources,
                Advice &advice) {
    if (!is_spot(feature)) {
        return;
    }
    if (!feature.further.uv254) {
        advice.add("lamp at 254 nm", "stain",
                   stain_likelihoods(uv254(), hypotheses.traits, sources.library));
    }
    for (const Stain &stain : stains()) {
        const bool is_done =
            std::any_of(feature.further.stains.begin(), feature.further.stains.end(),
                        [&](const StainTest &test) { return find_stain(test.stain) == &stain; });
        if (!is_done && &stain != &uv254()) {
            advice.add(stain.name, "stain",
                       stain_likelihoods(stain, hypotheses.traits, sources.library));
        }
    }
}

FeatureAdvice advise_feature(const Feature &feature, const Identification &identification,
                             AdviceSources &sources) {
    FeatureAdvice result;
    result.sample = feature.sample;
    result.feature = feature.name;
    if (identification.candidates.empty()) {
        return result;
    }
    const Hypotheses hypotheses = hypotheses_of(identification, sources);
    result.open_bits = entropy_bits(hypotheses.probabilities);
    for (std::size_t i = 0; i < hypotheses.names.size(); ++i) {
        result.candidates.push_back({hypotheses.names[i], hypotheses.probabilities[i]});
    }
    result.unlisted = identification.unlisted;
    result.other = std::max(0.0, hypotheses.probabilities.back() - identification.unlisted);
    result.remaining = remaining_compounds(hypotheses.probabilities);
    Advice advice(hypotheses, sources.efforts);
    add_systems(feature, hypotheses, sources, advice);
    add_standards(feature, hypotheses, sources, advice);
    add_stains(feature, hypotheses, sources, advice);
    if (!feature.further.molar_mass && feature.further.formula.empty()) {
        advice.add("molar mass", "mass", mass_likelihoods(hypotheses.traits, sources.library));
    }
    result.measurements = advice.sorted();
    return result;
}

/// For measurements that tell about all features at once: the sums of what they tell about each.
std::vector<AdvisedMeasurement> for_all(const std::vector<FeatureAdvice> &features) {
    std::map<std::string, AdvisedMeasurement> sums;
    for (const FeatureAdvice &feature : features) {
        for (const AdvisedMeasurement &measurement : feature.measurements) {
            if (measurement.kind == "standard" || measurement.kind == "mass") {
                continue;
            }
            const auto [entry, is_new] = sums.try_emplace(measurement.name, measurement);
            if (!is_new) {
                entry->second.known += measurement.known;
                entry->second.gain.bits += measurement.gain.bits;
                entry->second.gain.remaining += measurement.gain.remaining;
            }
        }
    }
    std::vector<AdvisedMeasurement> result;
    result.reserve(sums.size());
    for (auto &[name, sum] : sums) {
        result.push_back(std::move(sum));
    }
    sort_by_gain(result);
    return result;
}

void keep_best(std::vector<AdvisedMeasurement> &measurements, std::size_t top) {
    if (measurements.size() > top) {
        measurements.erase(measurements.begin() + static_cast<std::ptrdiff_t>(top),
                           measurements.end());
    }
}

} // namespace

std::vector<CompoundTraits> sampled_traits(library::Database &database,
                                           const LibraryEvidence &evidence) {
    std::vector<CompoundTraits> traits;
    const std::size_t step = 1 + evidence.compound_ids.size() / kTraitsSampled;
    for (std::size_t i = 0; i < evidence.compound_ids.size(); i += step) {
        traits.push_back(
            traits_of(database, library::find_compound(database, evidence.compound_ids[i])));
    }
    return traits;
}

SampleAdvice advise_sample(const SampleIdentification &sample, AdviceSources &sources,
                           std::size_t top) {
    SampleAdvice advice;
    for (std::size_t i = 0; i < sample.asked.size(); ++i) {
        advice.features.push_back(advise_feature(*sample.asked[i], sample.features[i], sources));
    }
    if (advice.features.size() > 1) {
        advice.together = for_all(advice.features);
        keep_best(advice.together, top);
    }
    for (FeatureAdvice &feature : advice.features) {
        keep_best(feature.measurements, top);
    }
    return advice;
}

} // namespace cospot
