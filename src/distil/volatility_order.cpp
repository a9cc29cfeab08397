#include "distil/volatility_order.h"

#include "library/compounds.h"
#include "library/measurements.h"
#include "quantities/boiling_scale.h"
#include "quantities/index_scale.h"
#include "shared/error.h"
#include "shared/robust.h"
#include "shared/text.h"
#include "structures/structure_service.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace cospot::distillation {

namespace {

constexpr double kZeroCelsius_K = 273.15;
constexpr double kFarOff = 2.0;
constexpr std::size_t kFewest = 3;

void check_system(const library::System &system) {
    if (system.technique != Technique::gc ||
        quantities::index_scale_from_text(system.scale) != quantities::IndexScale::n_alkane) {
        throw InputError({"command line, --system", 0, ""}, in_quotes(system.name),
                         "a gc system with retention indices on the n-alkane scale");
    }
}

std::optional<ComparedCompound> compared(const library::Compound &compound, double index) {
    const descriptors::BoilingPoint estimate =
        structure_service().boiling_points(compound.smiles).model;
    if (!estimate.kelvin) {
        return std::nullopt;
    }
    ComparedCompound result;
    result.name = compound.name;
    result.index = index;
    try {
        result.by_index = quantities::boiling_point_from_index(index);
    } catch (const InputError &) {
        return std::nullopt; // off the scale of alkanes
    }
    result.estimated = *estimate.kelvin - kZeroCelsius_K;
    result.standard_error = estimate.standard_error_kelvin.value_or(0.0);
    return result;
}

void set_places(std::vector<ComparedCompound> &compounds) {
    std::stable_sort(compounds.begin(), compounds.end(),
                     [](const auto &a, const auto &b) { return a.index < b.index; });
    std::vector<std::size_t> by_boiling(compounds.size());
    std::iota(by_boiling.begin(), by_boiling.end(), 0);
    std::stable_sort(by_boiling.begin(), by_boiling.end(), [&](std::size_t a, std::size_t b) {
        return compounds[a].estimated < compounds[b].estimated;
    });
    for (std::size_t i = 0; i < compounds.size(); ++i) {
        compounds[i].place = i + 1;
        compounds[by_boiling[i]].expected_place = i + 1;
    }
}

void set_standings(VolatilityOrder &order) {
    std::vector<double> differences;
    for (const ComparedCompound &compound : order.compounds) {
        differences.push_back(compound.by_index - compound.estimated);
    }
    order.usual_difference = upper_median(differences);
    order.spread = deviation_about_median(differences);
    for (std::size_t i = 0; i < differences.size(); ++i) {
        ComparedCompound &compound = order.compounds[i];
        const double off = differences[i] - order.usual_difference;
        if (std::abs(off) > kFarOff * std::max(order.spread, compound.standard_error)) {
            compound.standing = off > 0.0 ? Standing::late : Standing::early;
        }
    }
}

void count_pairs(VolatilityOrder &order) {
    const auto &compounds = order.compounds;
    for (std::size_t a = 0; a < compounds.size(); ++a) {
        for (std::size_t b = a + 1; b < compounds.size(); ++b) {
            ++order.pairs;
            order.ordered_pairs += compounds[a].estimated <= compounds[b].estimated ? 1 : 0;
        }
    }
}

} // namespace

std::string_view phase_rule(quantities::GasPhase phase) {
    switch (phase) {
    case quantities::GasPhase::non_polar:
        return "Non-polar phase: compounds leave by boiling point, lowest first, because the phase "
               "holds all of them by much the same weak forces; polar ones come somewhat early, "
               "since they boil higher by holding on to one another.";
    case quantities::GasPhase::polar:
        return "Polar phase: the order of boiling points fails. The phase holds compounds that can "
               "form hydrogen bonds with it (alcohols, acids, phenols, amines) longer than their "
               "boiling points say, and lets hydrocarbons go earlier.";
    case quantities::GasPhase::unknown:
        break;
    }
    return "The name of this phase does not say how polar it is: the order of boiling points holds "
           "on non-polar phases only.";
}

VolatilityOrder volatility_order(library::Database &database, const library::System &system) {
    check_system(system);
    VolatilityOrder order;
    order.system = system.name;
    order.stationary_phase = system.stationary_phase;
    order.phase = quantities::gas_phase_of(system.stationary_phase);
    std::map<library::CompoundId, std::vector<double>> indices;
    for (const library::HeldValue &held :
         library::values_on_system(database, system.id, Quantity::RI)) {
        indices[held.compound].push_back(held.value);
    }
    for (const auto &[id, values] : indices) {
        const auto compound = library::find_compound(database, id);
        const auto result = compound ? compared(*compound, upper_median(values)) : std::nullopt;
        if (result) {
            order.compounds.push_back(*result);
        } else {
            ++order.left_out;
        }
    }
    if (order.compounds.size() < kFewest) {
        throw InputError(
            {"command line, --system", 0, ""},
            fmt::format("{}, with {} compounds to compare", in_quotes(system.name),
                        order.compounds.size()),
            fmt::format("{} or more with a retention index from 500 to 4400", kFewest));
    }
    set_places(order.compounds);
    set_standings(order);
    count_pairs(order);
    return order;
}

} // namespace cospot::distillation
