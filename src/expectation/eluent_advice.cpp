#include "expectation/eluent_advice.h"

#include "quantities/plate.h"
#include "quantities/solvent_strength.h"
#include "shared/error.h"
#include "shared/solvent_names.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace cospot {

namespace {

/// Strength on an adsorbent; none where nobody published it.
std::optional<double> strength_of(const std::string &solvent, quantities::Adsorbent adsorbent) {
    try {
        return quantities::solvent_strength(solvent, adsorbent);
    } catch (const InputError &) {
        return std::nullopt; // a solvent that the table does not hold is no fault of the user
    }
}

/// Volume fraction of the strong solvent in a mixture of these two solvents; none for others.
std::optional<double> strong_fraction(const std::vector<SolventPart> &eluent,
                                      const std::string &strong, const std::string &weak) {
    double fraction = 0.0;
    const std::vector<double> fractions = volume_fractions(eluent);
    for (std::size_t i = 0; i < eluent.size(); ++i) {
        const std::string name = solvent_key(eluent[i].solvent);
        if (name == strong) {
            fraction += fractions[i];
        } else if (name != weak) {
            return std::nullopt;
        }
    }
    return fraction;
}

/// The mobile phase as it is written: its parts in an older library may be read less well.
std::vector<SolventPart> eluent_of(const library::System &system) {
    return system.mobile_phase.empty() ? std::vector<SolventPart>{}
                                       : parse_eluent(system.mobile_phase, {});
}

/// What was added against tailing, in per cent of the volume.
std::map<std::string, double> additives_of(const std::vector<SolventPart> &eluent) {
    constexpr double whole = 100.0;
    const std::vector<SolventPart> rest = without_additives(eluent);
    const std::vector<double> fractions = volume_fractions(eluent);
    std::map<std::string, double> additives;
    for (std::size_t i = 0; i < eluent.size(); ++i) {
        const bool is_kept = std::any_of(rest.begin(), rest.end(), [&](const SolventPart &part) {
            return part.solvent == eluent[i].solvent && part.parts == eluent[i].parts;
        });
        if (!is_kept) {
            additives[solvent_key(eluent[i].solvent)] += whole * fractions[i];
        }
    }
    return additives;
}

/// Whether the amounts are the same but for a tenth, as a pipette measures them.
bool are_alike(const std::map<std::string, double> &a, const std::map<std::string, double> &b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const auto &one, const auto &other) {
                          return one.first == other.first &&
                                 std::abs(one.second - other.second) <= one.second / 10.0;
                      });
}

bool is_alike(const library::System &a, const library::System &b) {
    return a.technique == b.technique && a.stationary_phase == b.stationary_phase &&
           a.programme == b.programme && !b.retired && !b.mobile_phase.empty() &&
           are_alike(additives_of(eluent_of(a)), additives_of(eluent_of(b)));
}

/// The systems that differ in proportion only, from weak to strong.
std::vector<std::pair<double, library::System>> mixtures_of(library::Database &database,
                                                            const library::System &system,
                                                            const std::string &strong,
                                                            const std::string &weak) {
    std::vector<std::pair<double, library::System>> mixtures;
    for (library::System &other : library::all_systems(database)) {
        const auto fraction =
            is_alike(system, other)
                ? strong_fraction(without_additives(eluent_of(other)), strong, weak)
                : std::nullopt;
        if (fraction) {
            mixtures.emplace_back(*fraction, std::move(other));
        }
    }
    std::stable_sort(mixtures.begin(), mixtures.end(),
                     [](const auto &a, const auto &b) { return a.first < b.first; });
    return mixtures;
}

bool is_in_range(const MixtureExpectation &mixture) {
    return eluent_change(mixture.expected.expected) == EluentChange::keep;
}

std::optional<MixtureBetween> between_two(const std::vector<MixtureExpectation> &mixtures) {
    if (std::any_of(mixtures.begin(), mixtures.end(), is_in_range)) {
        return std::nullopt;
    }
    for (std::size_t i = 1; i < mixtures.size(); ++i) {
        const MixtureExpectation &a = mixtures[i - 1];
        const MixtureExpectation &b = mixtures[i];
        const auto fraction = fraction_for(kWantedRf, a.strong_fraction, a.expected.expected,
                                           b.strong_fraction, b.expected.expected);
        if (fraction) {
            return MixtureBetween{*fraction, a.mobile_phase, b.mobile_phase};
        }
    }
    return std::nullopt;
}

} // namespace

std::string_view to_text(EluentChange change) {
    switch (change) {
    case EluentChange::keep:
        return "keep";
    case EluentChange::stronger:
        return "stronger";
    case EluentChange::weaker:
        return "weaker";
    }
    return "";
}

EluentChange eluent_change(double rf) {
    if (rf < kLowestWantedRf) {
        return EluentChange::stronger;
    }
    return rf > kHighestWantedRf ? EluentChange::weaker : EluentChange::keep;
}

std::string strongest_solvent(const std::vector<SolventPart> &whole) {
    const std::vector<SolventPart> eluent = without_additives(whole);
    // Polar adsorbents put solvents in the same order: where silica is lacking, alumina tells.
    for (const auto adsorbent : {quantities::Adsorbent::silica, quantities::Adsorbent::alumina}) {
        std::string strongest;
        std::optional<double> most;
        bool are_all_known = eluent.size() > 1;
        for (const SolventPart &part : eluent) {
            const auto strength = strength_of(part.solvent, adsorbent);
            are_all_known &= strength.has_value();
            if (strength && (!most || *strength > *most)) {
                most = strength;
                strongest = solvent_key(part.solvent);
            }
        }
        if (are_all_known) {
            return strongest;
        }
    }
    return "";
}

std::vector<std::string> eluent_doubts(const std::vector<SolventPart> &eluent) {
    std::vector<std::string> doubts;
    for (const SolventPart &part : without_additives(eluent)) {
        const std::string name = in_quotes(part.solvent);
        if (known_solvent(part.solvent).empty()) {
            doubts.push_back(name + " is not understood as a solvent (names and abbreviations as "
                                    "PE, EE, EtOAc, DCM are; a mixture has its parts, as in "
                                    "PE/EE 4:1)");
        } else if (!strength_of(part.solvent, quantities::Adsorbent::silica) &&
                   !strength_of(part.solvent, quantities::Adsorbent::alumina)) {
            doubts.push_back("no strength on silica is known here of " + name);
        }
    }
    return doubts;
}

std::optional<double> fraction_for(double wanted, double fraction_a, double rf_a, double fraction_b,
                                   double rf_b) {
    const auto is_open = [](double rf) { return rf > 0.0 && rf < 1.0; };
    if (!is_open(rf_a) || !is_open(rf_b) || fraction_a <= 0.0 || fraction_b <= 0.0 ||
        std::min(rf_a, rf_b) > wanted || std::max(rf_a, rf_b) < wanted || rf_a == rf_b) {
        return std::nullopt;
    }
    const double a = quantities::r_m(rf_a);
    const double share = (quantities::r_m(wanted) - a) / (quantities::r_m(rf_b) - a);
    return fraction_a * std::pow(fraction_b / fraction_a, share);
}

EluentAdvice advise_eluent(RetentionModels &models, const library::System &system,
                           const AskedCompound &target) {
    library::Database &database = models.database();
    EluentAdvice advice;
    const std::vector<SolventPart> whole = eluent_of(system);
    const std::vector<SolventPart> eluent = without_additives(whole);
    const std::string strong = strongest_solvent(eluent);
    if (eluent.size() != 2 || strong.empty()) {
        return advice;
    }
    const bool first_is_strong = solvent_key(eluent.front().solvent) == strong;
    const std::string weak = solvent_key(eluent[first_is_strong ? 1 : 0].solvent);
    advice.strong_solvent = strong;
    advice.weak_solvent = weak;
    for (const auto &[additive, percent] : additives_of(whole)) {
        advice.additives += fmt::format(" + {:.2g} % {}", percent, additive);
    }
    const auto mixtures = mixtures_of(database, system, strong, weak);
    std::vector<library::System> systems;
    systems.reserve(mixtures.size());
    for (const auto &[fraction, mixture] : mixtures) {
        systems.push_back(mixture);
    }
    const auto expected = expected_retention(models, {target}, systems).front();
    for (const auto &mixture : mixtures) {
        const library::System &its_system = mixture.second;
        const auto found =
            std::find_if(expected.begin(), expected.end(), [&](const ExpectedRetention &other) {
                return other.system == its_system.name && other.quantity == Quantity::Rf &&
                       other.prediction.has_value();
            });
        if (found != expected.end()) {
            advice.mixtures.push_back({its_system.mobile_phase, mixture.first, *found});
        }
    }
    advice.between = between_two(advice.mixtures);
    return advice;
}

} // namespace cospot
