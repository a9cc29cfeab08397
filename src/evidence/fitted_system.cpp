#include "evidence/fitted_system.h"

#include "evidence/fit_bytes.h"
#include "library/fits.h"
#include "library/overview.h"
#include "library/systems.h"
#include "model/matcher/run_registration.h"
#include "shared/date.h"
#include "shared/interruption.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <numeric>
#include <optional>
#include <string_view>
#include <utility>

namespace cospot {

matcher::SystemModel fit_held(Technique technique, Quantity quantity,
                              const std::vector<library::HeldValue> &held) {
    // Compounds and runs are numbered as they come, not by ids: sums then round the same whatever
    // the order in which the rows were learned.
    std::vector<std::size_t> compounds;
    std::map<std::int64_t, std::int64_t> sessions;
    std::vector<matcher::KnownValue> known;
    known.reserve(held.size());
    for (const library::HeldValue &value : held) {
        const auto compound = static_cast<std::size_t>(value.compound);
        if (compounds.empty() || compounds.back() != compound) {
            compounds.push_back(compound);
        }
        const std::int64_t run =
            sessions.try_emplace(value.session, std::ssize(sessions)).first->second;
        known.push_back({compounds.size() - 1, run, value.run_is_named, value.value,
                         value.uncertainty, value.year});
    }
    return renumbered(matcher::fit_system(technique, quantity, known), compounds);
}

matcher::SystemModel renumbered(matcher::SystemModel model,
                                const std::vector<std::size_t> &numbers) {
    std::vector<std::uint32_t> order(model.candidates.size());
    std::iota(order.begin(), order.end(), 0U);
    const auto number = [&](std::uint32_t i) { return numbers[model.candidates[i].compound]; };
    std::sort(order.begin(), order.end(),
              [&](std::uint32_t a, std::uint32_t b) { return number(a) < number(b); });
    std::vector<std::uint32_t> place(order.size());
    std::vector<matcher::CandidateDensity> candidates;
    candidates.reserve(order.size());
    for (std::uint32_t i = 0; i < order.size(); ++i) {
        place[order[i]] = i;
        candidates.push_back(model.candidates[order[i]]);
        candidates.back().compound = static_cast<std::size_t>(number(order[i]));
    }
    model.candidates = std::move(candidates);
    for (std::uint32_t &position : model.by_location) {
        position = place[position];
    }
    for (auto first = model.by_location.begin(); first != model.by_location.end();) {
        const double location = model.candidates[*first].location;
        const auto last = std::find_if(first, model.by_location.end(), [&](std::uint32_t i) {
            return model.candidates[i].location != location;
        });
        std::sort(first, last); // at one place in the order of compounds
        first = last;
    }
    return model;
}

namespace {

/// Consecutive parts of a fit.
struct Parts {
    std::size_t first;
    std::size_t last;
};

/// None where it is of another version, damaged, or not of today's values of that system.
std::optional<FitSummary> kept_summary(library::Database &database, const library::KeptFit &fit,
                                       library::SystemId system, Quantity quantity) {
    std::optional<FitSummary> summary;
    if (fit.version == kFitVersion) {
        const std::string origin = library::origin_of_fit(database, system, quantity);
        library::read_summary(database, fit, [&](std::string_view bytes) {
            if (const auto content = unsealed(origin, bytes)) {
                summary = summary_from_bytes(quantity, *content);
            }
        });
    }
    return summary;
}

/// The kept model with the candidates of some parts, which are in order and apart.
std::optional<matcher::SystemModel> kept_model(library::Database &database,
                                               const library::KeptFit &fit, FitSummary summary,
                                               const std::vector<Parts> &chosen) {
    std::vector<matcher::CandidateDensity> candidates;
    std::size_t expected = 0;
    bool are_sound = true;
    for (const Parts &parts : chosen) {
        std::size_t number = parts.first;
        library::read_parts(database, fit, parts.first, parts.last, [&](std::string_view bytes) {
            are_sound = are_sound && take_part(summary, number, bytes, candidates);
            ++number;
        });
        expected += std::min(summary.candidates, (parts.last + 1) * kCandidatesInPart) -
                    parts.first * kCandidatesInPart;
    }
    return are_sound && candidates.size() == expected ? model_from(std::move(summary), candidates)
                                                      : std::nullopt;
}

std::vector<Parts> all_parts(const FitSummary &summary) {
    return summary.starts.empty() ? std::vector<Parts>{}
                                  : std::vector<Parts>{{0, summary.starts.size() - 1}};
}

/// The parts that hold what may have shown an observation, and one more on each side for the
/// closest candidates.
Parts parts_near(const FitSummary &summary, const matcher::Observation &observation) {
    static_assert(kCandidatesInPart >= matcher::kClosest);
    const std::vector<double> &starts = summary.starts;
    const auto [low, high] = matcher::stretch_in_reach(summary.model, summary.reach, observation);
    const auto first = std::lower_bound(starts.begin(), starts.end(), low) - starts.begin();
    const auto behind = std::upper_bound(starts.begin(), starts.end(), high) - starts.begin();
    return {static_cast<std::size_t>(std::max<std::ptrdiff_t>(first - 2, 0)),
            static_cast<std::size_t>(std::min(behind, std::ssize(starts) - 1))};
}

/// What lies near at least one of the observations.
std::vector<Parts> parts_near(const FitSummary &summary,
                              std::span<const matcher::Observation> observations) {
    std::vector<Parts> near;
    if (!summary.starts.empty()) {
        for (const matcher::Observation &observation : observations) {
            near.push_back(parts_near(summary, observation));
        }
    }
    std::sort(near.begin(), near.end(),
              [](const Parts &a, const Parts &b) { return a.first < b.first; });
    std::vector<Parts> joined;
    for (const Parts &parts : near) {
        if (!joined.empty() && parts.first <= joined.back().last + 1) {
            joined.back().last = std::max(joined.back().last, parts.last);
        } else {
            joined.push_back(parts);
        }
    }
    return joined;
}

/// All of a system's values fitted.
matcher::SystemModel fit_anew(library::Database &database, const library::System &system,
                              Quantity quantity) {
    return fit_held(system.technique, quantity,
                    library::values_on_system(database, system.id, quantity));
}

/// The model for a run of today.
matcher::SystemModel of_today(matcher::SystemModel model) {
    const auto today = decimal_year(std::string_view(utc_now()).substr(0, 10));
    model.years_since = std::max(0.0, *today - model.newest_year.value_or(*today));
    return model;
}

/// The kept model with the parts that `choose` takes from a summary, or else all of it fitted anew.
template <class Choose>
matcher::SystemModel kept_or_fitted(library::Database &database, library::SystemId system,
                                    Quantity quantity, const Choose &choose) {
    if (const auto fit = library::kept_fit(database, system, quantity)) {
        if (auto summary = kept_summary(database, *fit, system, quantity)) {
            const std::vector<Parts> chosen = choose(*summary);
            if (auto kept = kept_model(database, *fit, std::move(*summary), chosen)) {
                return of_today(std::move(*kept));
            }
        }
    }
    const auto described = library::find_system(database, system);
    return of_today(fit_anew(database, described.value_or(library::System{}), quantity));
}

} // namespace

matcher::SystemModel fitted_system(library::Database &database, library::SystemId system,
                                   Quantity quantity) {
    return kept_or_fitted(database, system, quantity, all_parts);
}

matcher::SystemModel fitted_within_reach(library::Database &database, library::SystemId system,
                                         Quantity quantity,
                                         std::span<const matcher::Observation> observations) {
    if (quantity == Quantity::Rf) {
        return fitted_system(database, system, quantity);
    }
    return kept_or_fitted(database, system, quantity, [&](const FitSummary &summary) {
        return parts_near(summary, observations);
    });
}

namespace {

/// Whether there is a fit of our version, with as many parts as it says.
bool is_kept(library::Database &database, library::SystemId system, Quantity quantity) {
    const auto fit = library::kept_fit(database, system, quantity);
    const auto summary = fit ? kept_summary(database, *fit, system, quantity) : std::nullopt;
    return summary && library::count_parts(database, *fit) == summary->starts.size();
}

void keep_missing(library::Database &database) {
    library::Transaction transaction(database);
    for (const library::System &system : library::all_systems(database)) {
        for (const Quantity quantity : library::quantities_on_system(database, system.id)) {
            if (!is_kept(database, system.id, quantity)) {
                const auto held = library::values_on_system(database, system.id, quantity);
                const FitBytes bytes = to_bytes(fit_held(system.technique, quantity, held));
                library::store_fit(
                    database, system.id, quantity, kFitVersion,
                    static_cast<std::int64_t>(held.size()),
                    sealed(library::origin_of_fit(database, system.id, quantity), bytes.summary),
                    bytes.parts);
            }
        }
    }
    transaction.commit_quietly();
}

} // namespace

void keep_fits(library::Database &database) {
    try {
        keep_missing(database);
        check_interrupted(); // a signal at the end of it is not passed over
    } catch (const library::DatabaseError &) {
        // E.g. the disk is full. The change itself is stored; answers take a little longer.
    } // An interruption is passed on: the change before is told of (`is_to_be_said`).
}

} // namespace cospot
