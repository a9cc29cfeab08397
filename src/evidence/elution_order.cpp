#include "evidence/elution_order.h"

#include "library/compounds.h"
#include "library/damage.h"
#include "library/descriptions.h"
#include "library/measurements.h"
#include "library/overview.h"
#include "model/matcher/retention_scale.h"
#include "shared/paired_sums.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <map>
#include <numeric>
#include <stdexcept>

namespace cospot {

namespace {

constexpr std::size_t kFewestCompounds = 10;

bool names_one_of(std::string_view text, std::initializer_list<std::string_view> words) {
    const std::string lower = lower_ascii(text);
    return std::any_of(words.begin(), words.end(), [&](std::string_view word) {
        return lower.find(word) != std::string::npos;
    });
}

/// Ranks from 1; equal values share their mean rank.
std::vector<double> ranks_of(std::span<const double> values) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    std::vector<double> ranks(values.size());
    for (std::size_t first = 0; first < order.size();) {
        std::size_t last = first + 1;
        while (last < order.size() && values[order[last]] == values[order[first]]) {
            ++last;
        }
        const double mean = 0.5 * static_cast<double>(first + 1 + last);
        for (; first < last; ++first) {
            ranks[order[first]] = mean;
        }
    }
    return ranks;
}

std::string property_name(Mechanism mechanism) {
    switch (mechanism) {
    case Mechanism::adsorption:
    case Mechanism::partition:
        return "polar surface and hydrogen-bond donors";
    case Mechanism::reversed_phase:
        return "log P";
    case Mechanism::volatility:
    case Mechanism::polar_gas:
        return "molar refractivity (size)";
    case Mechanism::unknown:
        break;
    }
    return "";
}

/// The property that holds a compound back.
double property_of(Mechanism mechanism, const library::Description &description) {
    // A donor counts like the surface of a hydroxyl group, 20 square angstrom (P. Ertl, B. Rohde,
    // P. Selzer, J. Med. Chem. 2000, 43, 3714).
    constexpr double donor = 20.0;
    switch (mechanism) {
    case Mechanism::adsorption:
    case Mechanism::partition:
        return description.polar_surface + donor * description.hydrogen_bond_donors;
    case Mechanism::reversed_phase:
        return description.crippen_logp;
    default:
        return description.molar_refractivity;
    }
}

/// Compounds of a system with what holds them back and how far it does.
struct Compared {
    std::vector<library::CompoundId> compounds;
    std::vector<double> properties;
    std::vector<double> retentions; ///< the larger, the later
};

Compared compared_on(library::Database &database, const library::System &system, Quantity quantity,
                     Mechanism mechanism) {
    std::map<library::CompoundId, std::pair<double, double>> sums; // of retention, and how many
    for (const library::HeldValue &value :
         library::values_on_system(database, system.id, quantity)) {
        auto &[sum, count] = sums[value.compound];
        sum += matcher::to_model_scale(quantity, value.value);
        count += 1.0;
    }
    Compared compared;
    for (const auto &[compound, total] : sums) {
        if (const auto description = library::description_of(database, compound)) {
            const double mean = total.first / total.second;
            compared.compounds.push_back(compound);
            compared.properties.push_back(property_of(mechanism, *description));
            compared.retentions.push_back(quantity == Quantity::Rf ? -mean : mean);
        }
    }
    return compared;
}

/// Names of the compounds whose rank is farthest from that expected, most first; `sign` is 1 for
/// those that come later.
std::vector<std::string> standing_out(library::Database &database, const Compared &compared,
                                      double sign) {
    constexpr std::size_t most = 3;
    constexpr double far = 0.5; // of all ranks
    const std::vector<double> expected = ranks_of(compared.properties);
    const std::vector<double> observed = ranks_of(compared.retentions);
    std::vector<std::pair<double, library::CompoundId>> distances;
    for (std::size_t i = 0; i < expected.size(); ++i) {
        const double distance = sign * (observed[i] - expected[i]);
        if (distance > far * static_cast<double>(expected.size())) {
            distances.emplace_back(-distance, compared.compounds[i]);
        }
    }
    std::sort(distances.begin(), distances.end());
    std::vector<std::string> names;
    for (std::size_t i = 0; i < std::min(most, distances.size()); ++i) {
        names.push_back(
            library::sound(library::find_compound(database, distances[i].second), database).name);
    }
    return names;
}

} // namespace

Mechanism mechanism_of(const library::System &system) {
    const std::string &phase = system.stationary_phase;
    if (system.technique == Technique::gc) {
        switch (quantities::gas_phase_of(phase)) {
        case quantities::GasPhase::polar:
            return Mechanism::polar_gas;
        case quantities::GasPhase::non_polar:
            return Mechanism::volatility;
        case quantities::GasPhase::unknown:
            return Mechanism::unknown;
        }
    }
    if (system.technique == Technique::paper || names_one_of(phase, {"cellulose", "paper"})) {
        return Mechanism::partition;
    }
    const Mechanism mechanism = mechanism_of(quantities::liquid_phase_of(phase));
    // On silica with water in the eluent another mechanism rules.
    const bool is_watery = names_one_of(system.mobile_phase, {"water", "buffer"});
    return mechanism == Mechanism::adsorption && is_watery ? Mechanism::unknown : mechanism;
}

Mechanism mechanism_of(quantities::LiquidPhase phase) {
    switch (phase) {
    case quantities::LiquidPhase::reversed:
        return Mechanism::reversed_phase;
    case quantities::LiquidPhase::normal:
        return Mechanism::adsorption;
    case quantities::LiquidPhase::unknown:
        break;
    }
    return Mechanism::unknown;
}

std::string elution_principle(Mechanism mechanism) {
    switch (mechanism) {
    case Mechanism::adsorption:
        return "Normal phase: polar groups are held, so the least polar compound leaves first (the "
               "highest R_F). A more polar eluent moves everything.";
    case Mechanism::reversed_phase:
        return "Reversed phase: the alkyl phase holds what water repels, so the most polar "
               "compound leaves first. More organic solvent moves everything.";
    case Mechanism::partition:
        return "Partition: the water of the fibre holds polar compounds, so the least polar one "
               "runs farthest. More water in the eluent moves polar compounds.";
    case Mechanism::volatility:
        return "On this phase compounds leave about in the order of their boiling points, the most "
               "volatile first. A hotter oven moves everything.";
    case Mechanism::polar_gas:
        return "On this polar phase boiling points and hydrogen bonds count: alcohols, acids and "
               "amines come later than their boiling points say.";
    case Mechanism::unknown:
        break;
    }
    return "The name of this phase does not say whether it holds what is polar or what is not; the "
           "solvent that it holds best makes all leave earlier.";
}

double rank_correlation(std::span<const double> x, std::span<const double> y) {
    if (x.size() != y.size() || x.size() < 2) {
        throw std::invalid_argument("two spans of two or more values");
    }
    const std::vector<double> a = ranks_of(x);
    const std::vector<double> b = ranks_of(y);
    PairedSums ranks;
    for (std::size_t i = 0; i < a.size(); ++i) {
        ranks.add(a[i], b[i]);
    }
    return ranks.correlation().value_or(0.0);
}

std::optional<OrderCheck> check_order(library::Database &database, const library::System &system,
                                      Quantity quantity) {
    const Mechanism mechanism = mechanism_of(system);
    if (mechanism == Mechanism::unknown) {
        return std::nullopt;
    }
    const Compared compared = compared_on(database, system, quantity, mechanism);
    if (compared.compounds.size() < kFewestCompounds) {
        return std::nullopt;
    }
    OrderCheck check;
    check.property = property_name(mechanism);
    check.compounds = compared.compounds.size();
    check.correlation = rank_correlation(compared.properties, compared.retentions);
    constexpr double clear = 0.5; // our own choice: below it a quarter of the order is explained
    // In standard errors of a correlation of nothing. Chance gives 1.645 or more once in twenty
    // times; to doubt the mechanism takes more.
    const double errors = check.correlation * std::sqrt(static_cast<double>(check.compounds) - 1.0);
    check.goes_with = check.correlation >= clear && errors > 1.645;
    check.contradicts = check.correlation <= -clear && errors < -2.0;
    if (check.goes_with) {
        check.sooner = standing_out(database, compared, -1.0);
        check.later = standing_out(database, compared, 1.0);
    }
    return check;
}

std::vector<std::string> elution_words(library::Database &database, const library::System &system) {
    std::vector<std::string> words;
    if (const Mechanism mechanism = mechanism_of(system); mechanism != Mechanism::unknown) {
        words.push_back(elution_principle(mechanism));
    }
    for (const Quantity quantity : library::quantities_on_system(database, system.id)) {
        const auto check = check_order(database, system, quantity);
        if (!check) {
            continue;
        }
        const bool is_none = !check->goes_with && !check->contradicts;
        words.push_back(fmt::format("The {} of {} compounds here {} with {}: rank correlation "
                                    "{:.2f}{}.",
                                    to_text(quantity), check->compounds,
                                    is_none ? "does not go" : "goes", check->property,
                                    check->correlation,
                                    is_none ? ", so that it says of none of them whether it "
                                              "comes too soon or too late"
                                            : ""));
        if (check->contradicts) {
            words.emplace_back("! The order measured here contradicts this: are the phases "
                               "described as they were, and the values of this system?");
        }
        if (!check->sooner.empty()) {
            words.push_back(
                fmt::format("Far sooner than that says: {}.", fmt::join(check->sooner, ", ")));
        }
        if (!check->later.empty()) {
            words.push_back(
                fmt::format("Far later than that says: {}.", fmt::join(check->later, ", ")));
        }
    }
    return words;
}

} // namespace cospot
