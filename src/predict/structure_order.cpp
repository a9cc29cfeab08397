#include "predict/structure_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace cospot {

namespace {

const char *basis_of_order(Mechanism mechanism) {
    switch (mechanism) {
    case Mechanism::adsorption:
        return "how strongly silica holds them";
    case Mechanism::reversed_phase:
        return "log P";
    case Mechanism::partition:
        return "polar surface and hydrogen-bond donors";
    case Mechanism::volatility:
    case Mechanism::polar_gas:
        return "estimated boiling points";
    case Mechanism::unknown:
        break;
    }
    return "";
}

} // namespace

std::optional<double> held_by_structure(Mechanism mechanism, const CompoundProfile &profile) {
    constexpr double donor = 20.0; // square angstrom, as of a hydroxyl group (ertl2000)
    switch (mechanism) {
    case Mechanism::adsorption:
        return profile.adsorption.heteroatoms_left_out == 0
                   ? std::optional(profile.adsorption.energy)
                   : std::nullopt;
    case Mechanism::reversed_phase:
        return profile.descriptors.crippen_logp;
    case Mechanism::partition:
        return profile.descriptors.tpsa + donor * profile.descriptors.hydrogen_bond_donors;
    case Mechanism::volatility:
    case Mechanism::polar_gas:
        return profile.boiling.model.kelvin;
    case Mechanism::unknown:
        break;
    }
    return std::nullopt;
}

std::string structure_order_sentence(const Predictions &predictions,
                                     const library::System &system) {
    const Mechanism mechanism = mechanism_of(system);
    std::vector<std::pair<double, std::string>> order;
    std::string without;
    for (const CompoundProfile &profile : predictions.profiles) {
        if (const auto held = held_by_structure(mechanism, profile)) {
            order.emplace_back(*held, profile.compound.name);
        } else {
            without += (without.empty() ? "" : ", ") + profile.compound.name;
        }
    }
    if (order.size() < 2) {
        return "";
    }
    std::stable_sort(order.begin(), order.end(),
                     [](const auto &a, const auto &b) { return a.first < b.first; });
    std::string text;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const bool is_tie = i > 0 && order[i].first == order[i - 1].first;
        text += (i == 0 ? "" : is_tie ? " or " : ", ") + order[i].second;
    }
    return fmt::format("By structure alone ({}), first to leave first: {}. An order, no values{}.",
                       basis_of_order(mechanism), text,
                       without.empty() ? "" : "; nothing is said of " + without);
}

} // namespace cospot
