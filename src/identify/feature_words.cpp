#include "identify/feature_words.h"

#include "document/probability_text.h"
#include "shared/value_with_spread.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <vector>

namespace cospot {

std::string feature_name(const Feature &feature) {
    return feature.sample.empty() ? feature.name : feature.sample + " / " + feature.name;
}

std::string reading_of(const FeatureObservation &observation) {
    return fmt::format(
        "{} {}{}", to_text(observation.quantity),
        with_spread(observation.quantity, observation.value, observation.uncertainty),
        observation.extrapolated ? " (extrapolated)" : "");
}

std::string readings_of(const Feature &feature) {
    std::vector<std::string> words;
    if (feature.retention_time_min) {
        words.push_back(fmt::format("tR {:.3f} min", *feature.retention_time_min));
    }
    for (const FeatureObservation &observation : feature.observations) {
        words.push_back(reading_of(observation) + " on " + observation.system);
    }
    return fmt::to_string(fmt::join(words, "; "));
}

std::string pair_words(const Feature &feature) {
    if (!feature.pair) {
        return {};
    }
    const PairedPeak &pair = *feature.pair;
    return fmt::format("paired with peak {} of {} at {:.3f} min ({:.1f} % of the area there, "
                       "{:.1f} % here; probability of the pair {})",
                       pair.name, pair.system, pair.retention_time_min, pair.percent,
                       pair.first_percent, probability_text(pair.probability));
}

std::string further_words(const FurtherEvidence &further) {
    std::vector<std::string> words;
    if (further.uv254) {
        words.emplace_back(*further.uv254 ? "dark at 254 nm" : "not dark at 254 nm");
    }
    for (const StainTest &test : further.stains) {
        words.push_back((test.stained ? "stained by " : "not stained by ") + test.stain);
    }
    if (further.molar_mass) {
        words.push_back(
            fmt::format("molar mass {:.10g} ± {:g} g/mol", *further.molar_mass,
                        further.molar_mass_uncertainty.value_or(kMolarMassUncertainty)));
    }
    if (!further.formula.empty()) {
        words.push_back("formula " + further.formula);
    }
    return fmt::to_string(fmt::join(words, ", "));
}

} // namespace cospot
