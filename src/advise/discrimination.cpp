#include "advise/discrimination.h"

#include <numeric>

namespace cospot {

namespace {

Pairs joined(const Discrimination &discrimination, const std::vector<std::size_t> &systems) {
    Pairs pairs(discrimination.told_apart.front().size());
    for (const std::size_t system : systems) {
        pairs |= discrimination.told_apart[system];
    }
    return pairs;
}

/// The next combination of the same size in lexical order; false after the last.
bool next_combination(std::vector<std::size_t> &systems, std::size_t count_of_systems) {
    const std::size_t size = systems.size();
    for (std::size_t i = size; i-- > 0;) {
        if (systems[i] + (size - i) < count_of_systems) {
            ++systems[i];
            for (std::size_t j = i + 1; j < size; ++j) {
                systems[j] = systems[j - 1] + 1;
            }
            return true;
        }
    }
    return false;
}

SystemSet best_of_size(const Discrimination &discrimination, std::size_t size) {
    std::vector<std::size_t> systems(size);
    std::iota(systems.begin(), systems.end(), std::size_t{0});
    SystemSet best;
    std::size_t most = 0;
    do {
        Pairs pairs = joined(discrimination, systems);
        const std::size_t told = pairs.count();
        if (best.systems.empty() || told > most) {
            best = {systems, std::move(pairs)};
            most = told;
        }
    } while (next_combination(systems, discrimination.told_apart.size()));
    return best;
}

/// The set with the system that tells the most further pairs apart.
SystemSet extended(const Discrimination &discrimination, const SystemSet &set) {
    std::size_t best = 0;
    std::size_t most = 0;
    for (std::size_t s = 0; s < discrimination.told_apart.size(); ++s) {
        const std::size_t further = (discrimination.told_apart[s] - set.told_apart).count();
        if (further > most) {
            most = further;
            best = s;
        }
    }
    SystemSet longer = set;
    longer.systems.push_back(best);
    longer.told_apart |= discrimination.told_apart[best];
    return longer;
}

} // namespace

std::size_t pair_index(std::size_t a, std::size_t b, std::size_t compounds) {
    return a * compounds - a * (a + 1) / 2 + (b - a - 1);
}

double discriminating_power(std::size_t compounds, std::size_t not_told_apart) {
    if (compounds < 2) {
        return 1.0;
    }
    const auto n = static_cast<double>(compounds);
    return 1.0 - 2.0 * static_cast<double>(not_told_apart) / (n * (n - 1.0));
}

double mean_list_length(std::size_t compounds, const Pairs &told_apart) {
    // Each pair that is not told apart stands on two lists.
    const auto together = static_cast<double>(told_apart.size() - told_apart.count());
    return compounds == 0 ? 0.0 : 1.0 + 2.0 * together / static_cast<double>(compounds);
}

SystemChoice choose_systems(const Discrimination &discrimination, std::size_t most_exact) {
    SystemChoice choice;
    const std::size_t systems = discrimination.told_apart.size();
    if (systems == 0) {
        return choice;
    }
    std::vector<std::size_t> all(systems);
    std::iota(all.begin(), all.end(), std::size_t{0});
    const std::size_t possible = joined(discrimination, all).count();
    if (possible == 0) {
        return choice;
    }
    choice.is_exact = systems <= most_exact;
    SystemSet set = best_of_size(discrimination, 1);
    const std::size_t largest = set.told_apart.count();
    while (true) {
        choice.sets.push_back(set);
        if (set.told_apart.count() == possible) {
            break;
        }
        set = choice.is_exact ? best_of_size(discrimination, choice.sets.size() + 1)
                              : extended(discrimination, set);
    }
    choice.at_least = choice.is_exact ? choice.sets.size() : (possible + largest - 1) / largest;
    return choice;
}

} // namespace cospot
