#include "fractions/pools.h"

#include <algorithm>

namespace cospot::fractions {

namespace {

/// How much of a component a fraction holds, in a unit of its own; none where not all is known.
std::optional<Recovery> recovery_of(const Component &component, const ColumnRun &run,
                                    const Pooling &pooling) {
    const auto every = [&](auto holds) {
        return std::all_of(component.spots.begin(), component.spots.end(), holds);
    };
    if (!every([](const BandSpot &spot) { return spot.intensity.has_value(); })) {
        return std::nullopt;
    }
    Recovery recovery;
    recovery.by_volume = every(
        [&](const BandSpot &spot) { return run.fractions[spot.fraction].volume_ml.has_value(); });
    recovery.is_lower_bound = run.is_trace;
    double one_spot = 0.0;
    double all = 0.0;
    for (const BandSpot &spot : component.spots) {
        const double amount =
            spot.intensity.value() *
            (recovery.by_volume ? run.fractions[spot.fraction].volume_ml.value() : 1.0);
        all += amount;
        one_spot += pooling.states[spot.fraction] == FractionState::one_spot ? amount : 0.0;
    }
    if (all <= 0.0) {
        return std::nullopt;
    }
    recovery.one_spot = one_spot / all;
    return recovery;
}

/// Fractions at the ends of the band with next to none of the component.
std::vector<int> weak_edges_of(const Component &component, const ColumnRun &run) {
    double strongest = 0.0;
    for (const BandSpot &spot : component.spots) {
        strongest = std::max(strongest, spot.intensity.value_or(0.0));
    }
    const auto is_weak = [&](const BandSpot &spot) {
        return spot.intensity && *spot.intensity < kWeakShare * strongest;
    };
    const auto &spots = component.spots;
    const auto first_strong = std::find_if_not(spots.begin(), spots.end(), is_weak);
    const auto behind_strong = std::find_if_not(spots.rbegin(), spots.rend(), is_weak).base();
    std::vector<int> weak;
    for (auto spot = spots.begin(); spot != spots.end(); ++spot) {
        if (spot < first_strong || spot >= behind_strong) {
            weak.push_back(run.fractions[spot->fraction].number);
        }
    }
    return weak;
}

/// Numbers between two fractions that were looked at, and nobody looked at.
void add_gap(const ColumnRun &run, std::size_t before, std::vector<FractionRange> &gaps) {
    const int first = run.fractions[before].number + 1;
    const int last = run.fractions[before + 1].number - 1;
    if (first <= last) {
        gaps.push_back({first, last});
    }
}

ComponentPool judge_component(const Component &component, const ColumnRun &run,
                              const Pooling &pooling) {
    ComponentPool pool;
    for (const BandSpot &spot : component.spots) {
        const int number = run.fractions[spot.fraction].number;
        (pooling.states[spot.fraction] == FractionState::mixed ? pool.mixed : pool.one_spot)
            .push_back(number);
    }
    auto spot = component.spots.begin();
    for (std::size_t i = spot->fraction; i < component.spots.back().fraction; ++i) {
        if (spot->fraction == i) {
            ++spot;
        } else {
            pool.missed.push_back(run.fractions[i].number);
        }
        add_gap(run, i, pool.not_seen);
    }
    pool.weak_edges = weak_edges_of(component, run);
    pool.recovery = recovery_of(component, run, pooling);
    pool.one_spot_mass_mg = sum_over(run, pool.one_spot, &Fraction::mass_mg);
    pool.one_spot_volume_ml = sum_over(run, pool.one_spot, &Fraction::volume_ml);
    pool.mixed_mass_mg = sum_over(run, pool.mixed, &Fraction::mass_mg);
    return pool;
}

FractionState state_of(std::size_t components) {
    if (components == 0) {
        return FractionState::no_spot;
    }
    return components == 1 ? FractionState::one_spot : FractionState::mixed;
}

std::vector<MixedPool> mixed_pools(const ColumnRun &run, const Pooling &pooling) {
    std::vector<MixedPool> pools;
    bool goes_on = false;
    for (std::size_t i = 0; i < run.fractions.size(); ++i) {
        if (pooling.states[i] != FractionState::mixed) {
            goes_on = false;
            continue;
        }
        const int number = run.fractions[i].number;
        if (!goes_on || pools.back().components != pooling.components_in[i] ||
            pools.back().fractions.back() + 1 != number) {
            pools.push_back({{}, pooling.components_in[i], {}, {}});
        }
        pools.back().fractions.push_back(number);
        goes_on = true;
    }
    for (MixedPool &pool : pools) {
        pool.mass_mg = sum_over(run, pool.fractions, &Fraction::mass_mg);
        pool.volume_ml = sum_over(run, pool.fractions, &Fraction::volume_ml);
    }
    return pools;
}

} // namespace

std::string_view to_text(FractionState state) {
    switch (state) {
    case FractionState::no_spot:
        return "no spot";
    case FractionState::one_spot:
        return "one spot";
    case FractionState::mixed:
        return "mixed";
    }
    return "";
}

PartialSum sum_over(const ColumnRun &run, const std::vector<int> &numbers,
                    std::optional<double> Fraction::*amount) {
    PartialSum sum;
    auto fraction = run.fractions.begin();
    for (const int number : numbers) {
        fraction = std::find_if(fraction, run.fractions.end(),
                                [&](const Fraction &other) { return other.number == number; });
        ++sum.of;
        if (fraction != run.fractions.end() && (*fraction).*amount) {
            sum.total += ((*fraction).*amount).value();
            ++sum.known;
        }
    }
    return sum;
}

Pooling judge_fractions(const ColumnRun &run) {
    Pooling pooling;
    pooling.components_in.resize(run.fractions.size());
    for (std::size_t i = 0; i < run.components.size(); ++i) {
        for (const BandSpot &spot : run.components[i].spots) {
            pooling.components_in[spot.fraction].push_back(i);
        }
    }
    for (std::size_t i = 0; i < run.fractions.size(); ++i) {
        pooling.states.push_back(state_of(pooling.components_in[i].size()));
        if (pooling.states.back() == FractionState::no_spot) {
            pooling.no_spot.push_back(run.fractions[i].number);
        }
        if (i + 1 < run.fractions.size()) {
            add_gap(run, i, pooling.not_seen);
        }
    }
    for (const Component &component : run.components) {
        pooling.components.push_back(judge_component(component, run, pooling));
    }
    pooling.mixed = mixed_pools(run, pooling);
    if (!run.fractions.empty()) {
        pooling.open_end = pooling.components_in.back();
        if (run.fractions.front().number > 1) {
            pooling.open_start = pooling.components_in.front();
        }
    }
    return pooling;
}

} // namespace cospot::fractions
