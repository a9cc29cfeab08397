#include "identification/registered_run.h"

#include "evidence/cospots.h"
#include "identification/run_words.h"
#include "model/matcher/within_run.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

namespace cospot {

namespace {

/// Above this probability of an accident a run counts as moved.
constexpr double kMoved = 0.8;

using Standards = std::vector<const EvidenceStandard *>;

/// The standards beside the features of a run, by the index of their system.
std::map<std::size_t, Standards> standards_of(const std::string &run,
                                              const LibraryEvidence &evidence) {
    std::map<std::size_t, Standards> by_system;
    for (const EvidenceStandard &one : evidence.standards) {
        if (one.standard.run.empty() || one.standard.run == run) {
            by_system[one.system].push_back(&one);
        }
    }
    return by_system;
}

matcher::LabelCheck checked(const Standards &standards, const matcher::SystemModel &model) {
    std::vector<matcher::LabelledReading> readings;
    readings.reserve(standards.size());
    for (const EvidenceStandard *one : standards) {
        readings.push_back({one->compound, one->standard.observation.value,
                            one->standard.observation.uncertainty});
    }
    return matcher::check_labels(readings, model);
}

using StandardsByCompound = std::map<std::size_t, Standards>;

/// The trusted standards by compound. At the start or the front a standard tells nothing.
StandardsByCompound telling(const Standards &standards, const std::vector<bool> &trusted) {
    StandardsByCompound by_compound;
    for (std::size_t i = 0; i < standards.size(); ++i) {
        const FeatureObservation &read = standards[i]->standard.observation;
        if (trusted[i] &&
            matcher::censoring(read.quantity, read.value) == matcher::Censoring::none) {
            by_compound[standards[i]->compound].push_back(standards[i]);
        }
    }
    return by_compound;
}

/// How widely readings of one compound scatter in the run.
matcher::WithinRun scatter_of(const StandardsByCompound &by_compound,
                              const matcher::SystemModel &model) {
    std::vector<std::vector<double>> repeats;
    for (const auto &[compound, own] : by_compound) {
        std::vector<double> &readings = repeats.emplace_back();
        for (const EvidenceStandard *one : own) {
            readings.push_back(
                matcher::to_model_scale(model.quantity, one->standard.observation.value));
        }
    }
    return matcher::within_run(model, repeats);
}

/// Whether readings of one standard lie farther apart than readings of one run do.
bool contradict(const Standards &own, const matcher::SystemModel &model) {
    constexpr double far = 6.0; // standard deviations
    const double usual = matcher::within_run(model, {}).variance;
    double low = 1e300;
    double high = -1e300;
    double error = 0.0;
    for (const EvidenceStandard *one : own) {
        const FeatureObservation &read = one->standard.observation;
        const double x = matcher::to_model_scale(model.quantity, read.value);
        low = std::min(low, x);
        high = std::max(high, x);
        error =
            std::max(error, read.uncertainty * matcher::scale_slope(model.quantity, read.value));
    }
    return high - low > far * std::hypot(std::sqrt(usual), error);
}

/// The readings of each compound averaged.
matcher::StandardsInRun averaged(const StandardsByCompound &by_compound, double within_variance) {
    matcher::StandardsInRun result;
    for (const auto &[compound, own] : by_compound) {
        const auto n = static_cast<double>(own.size());
        matcher::StandardInRun standard{compound, 0.0, 0.0, n, within_variance};
        double squares = 0.0;
        for (const EvidenceStandard *one : own) {
            const FeatureObservation &read = one->standard.observation;
            standard.value += read.value / n;
            squares += read.uncertainty * read.uncertainty;
        }
        standard.uncertainty = std::sqrt(squares) / n;
        result.push_back(standard);
    }
    return result;
}

/// Gives the observations on a system the standards that ran beside them.
void give_standards(RegisteredRun &run, std::size_t system, matcher::StandardsInRun standards) {
    const auto shared = std::make_shared<const matcher::StandardsInRun>(std::move(standards));
    for (matcher::SampleFeature &feature : run.observed) {
        for (matcher::Observation &observation : feature.observations) {
            if (observation.system == system) {
                observation.standards = shared;
            }
        }
    }
}

void add_standards_to(RegisteredRun &run, const std::string &name, const LibraryEvidence &evidence,
                      KnownCompounds &compounds) {
    for (const auto &[system, standards] : standards_of(name, evidence)) {
        const matcher::SystemModel &model = evidence.knowledge.systems[system];
        const matcher::LabelCheck labels = checked(standards, model);
        StandardsByCompound by_compound = telling(standards, labels.trusted);
        for (std::size_t i = 0; i < standards.size(); ++i) {
            if (labels.trusted[i]) {
                run.notes.push_back(standard_words(*standards[i], model));
            }
        }
        for (auto own = by_compound.begin(); own != by_compound.end();) {
            if (contradict(own->second, model)) {
                run.notes.push_back(contradiction_words(*own->second.front()));
                run.needs_attention = true;
                own = by_compound.erase(own);
            } else {
                run.standards.insert(run.standards.end(), own->second.begin(), own->second.end());
                ++own;
            }
        }
        if (labels.is_doubted()) {
            run.notes.push_back(label_words(labels, standards, model, compounds));
            run.needs_attention = true;
        }
        const matcher::WithinRun within = scatter_of(by_compound, model);
        matcher::StandardsInRun in_run = averaged(by_compound, within.variance);
        if (within.is_assumed && !in_run.empty()) {
            run.notes.push_back(assumed_within_run_words(in_run.front(), model));
        }
        give_standards(run, system, std::move(in_run));
    }
}

/// The spot of a co-spot's sample that may be its standard: the nearest one, or none.
std::size_t spot_of(const CoSpot &cospot, const RegisteredRun &run) {
    std::size_t best = run.features.size();
    double nearest = 0.0;
    for (std::size_t i = 0; i < run.features.size(); ++i) {
        const Feature &feature = *run.features[i];
        if (feature.plate && feature.sample == cospot.sample) {
            const double distance = std::abs(feature.plate->distance_mm - cospot.distance_mm);
            if (best == run.features.size() || distance < nearest) {
                best = i;
                nearest = distance;
            }
        }
    }
    return best;
}

void add_cospots(RegisteredRun &run, const LibraryEvidence &evidence) {
    for (const auto &[cospot, compound] : evidence.cospots) {
        const std::size_t feature = spot_of(cospot, run);
        if (feature == run.features.size()) {
            continue;
        }
        run.cospots[feature].push_back(cospot);
        if (cospot.finding == CoSpotFinding::standard_missing) {
            run.notes.push_back("! " + words_of(cospot));
            run.needs_attention = true;
        }
        auto &ratios = run.further[feature].log_ratios;
        ratios.resize(compound_count(evidence), 0.0);
        ratios[compound] += log_ratio_of(cospot);
        run.observed[feature].further = ratios;
    }
}

void add_places(RegisteredRun &run, const std::vector<matcher::RegisteredSystem> &registered,
                const LibraryEvidence &evidence, KnownCompounds &compounds) {
    for (const matcher::RegisteredSystem &one : registered) {
        const ModelledSystem &modelled = evidence.systems[one.system];
        const matcher::SystemModel &model = evidence.knowledge.systems[one.system];
        const RunPlace place{modelled.system.name, modelled.quantity, one,
                             one.fits && one.accident > kMoved};
        run.needs_attention |= place.moved || !one.fits;
        for (std::string &note : place_words(place, modelled.system.technique)) {
            run.notes.push_back(std::move(note));
        }
        if (const auto standard = standard_to_run(one, model)) {
            run.notes.push_back(standard_to_run_words(place, compounds.at(*standard).name));
        }
        run.places.push_back(place);
    }
}

} // namespace

RegisteredRun register_features(std::span<const Feature *const> features,
                                const LibraryEvidence &evidence, KnownCompounds &compounds,
                                const matcher::SamplePrior &prior, RunSearch search) {
    RegisteredRun run;
    for (const Feature *feature : features) {
        if (!feature->observations.empty()) {
            run.features.push_back(feature);
            run.further.push_back(further_ratios(feature->further, evidence.traits));
            run.observed.push_back(
                {observations_of(*feature, evidence), run.further.back().log_ratios});
        }
    }
    if (run.features.empty()) {
        return run;
    }
    run.cospots.resize(run.features.size());
    add_standards_to(run, run.features.front()->run, evidence, compounds);
    add_cospots(run, evidence);
    if (search == RunSearch::wanted) {
        add_places(run,
                   matcher::register_run(run.observed, evidence.knowledge, evidence.nearby, prior),
                   evidence, compounds);
    }
    for (matcher::SampleFeature &feature : run.observed) {
        for (matcher::Observation &observation : feature.observations) {
            matcher::settle(observation, evidence.knowledge.systems[observation.system]);
        }
    }
    return run;
}

} // namespace cospot
