#include "learn/replicate_watch.h"

#include "evidence/fitted_system.h"
#include "library/compounds.h"
#include "library/measurements.h"
#include "library/systems.h"
#include "model/matcher/retention_scale.h"
#include "shared/robust.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace cospot {

namespace {

std::vector<double> values_of(const std::vector<library::HeldValue> &held,
                              library::CompoundId compound) {
    std::vector<double> values;
    for (const library::HeldValue &value : held) {
        if (value.compound == compound) {
            values.push_back(value.value);
        }
    }
    return values;
}

/// Its values in ascending order, as words.
std::string listed(Quantity quantity, std::vector<double> values) {
    std::sort(values.begin(), values.end());
    constexpr std::size_t most = 4;
    if (values.size() > most) {
        return fmt::format("{} values from {} to {}", values.size(),
                           shown(quantity, values.front()), shown(quantity, values.back()));
    }
    std::vector<std::string> words;
    for (const double value : values) {
        words.push_back(shown(quantity, value));
    }
    return joined(words);
}

/// Whether no drift of a system explains that both are values of one compound (common practice, no
/// source): R_F by more than half the plate, indices by a quarter, times and factors by three.
bool are_worlds_apart(Quantity quantity, double a, double b) {
    constexpr double half_plate = 0.5;
    constexpr double index_factor = 1.25;
    constexpr double other_factor = 3.0;
    if (quantity == Quantity::Rf) {
        return std::abs(a - b) > half_plate;
    }
    const double factor = quantity == Quantity::RI ? index_factor : other_factor;
    return std::max(a, b) > factor * std::min(a, b);
}

} // namespace

void ReplicateWatch::see(library::SystemId system, Quantity quantity, library::CompoundId compound,
                         double value, const Where &where) {
    seen_[{system, quantity}][compound].push_back({value, where});
}

void ReplicateWatch::remark_on(const System &system, const Compounds &seen, Words &words) {
    const auto [id, quantity] = system;
    const auto described = library::find_system(*database_, id).value();
    const auto held = library::values_on_system(*database_, id, quantity);
    const matcher::SystemModel model = fit_held(described.technique, quantity, held);
    for (const auto &[compound, learned] : seen) {
        const auto *candidate = matcher::find_candidate(model, static_cast<std::size_t>(compound));
        if (candidate == nullptr || !candidate->disagrees) {
            continue;
        }
        const std::vector<double> values = values_of(held, compound);
        const auto scaled = [&, quantity = quantity](double value) {
            return matcher::to_model_scale(quantity, value);
        };
        std::vector<double> on_scale;
        std::transform(values.begin(), values.end(), std::back_inserter(on_scale), scaled);
        const double middle = upper_median(std::move(on_scale));
        // Two values lie equally far from what is between them: the learned one is named.
        const auto far =
            std::max_element(learned.begin(), learned.end(), [&](const Seen &a, const Seen &b) {
                return std::abs(scaled(a.value) - middle) < std::abs(scaled(b.value) - middle);
            });
        std::vector<double> others = values;
        others.erase(std::find(others.begin(), others.end(), far->value));
        const bool must_be_wrong =
            std::all_of(others.begin(), others.end(), [&, quantity = quantity](double other) {
                return are_worlds_apart(quantity, far->value, other);
            });
        (must_be_wrong ? words.doubts : words.remarks)
            .push_back(fmt::format("{}:{}: {} {} of {} on {} lies far from {}, the other values "
                                   "learned or held: look for "
                                   "a wrong label or a typing error in either",
                                   far->where.file, far->where.line, to_text(quantity),
                                   shown(quantity, far->value),
                                   library::find_compound(*database_, compound).value().name,
                                   in_quotes(described.name), listed(quantity, std::move(others))));
    }
}

ReplicateWatch::Words ReplicateWatch::words() {
    Words found;
    for (const auto &[system, compounds] : seen_) {
        remark_on(system, compounds, found);
    }
    seen_.clear();
    return found;
}

} // namespace cospot
