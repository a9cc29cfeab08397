#include "model/matcher/assignment_trellis.h"

#include "model/matcher/scaled_number.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <limits>
#include <numeric>

namespace cospot::matcher {

namespace {

using Mask = std::uint64_t;
constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();

/// Numbers masks in the order in which they are first seen (open addressing).
class StateIndex {
public:
    std::uint32_t number(Mask mask) {
        if (2 * masks.size() >= table.size()) {
            rebuild(2 * table.size());
        }
        std::uint32_t &entry = find(mask);
        if (entry == kNone) {
            entry = static_cast<std::uint32_t>(masks.size());
            masks.push_back(mask);
        }
        return entry;
    }

    [[nodiscard]] std::uint32_t look_up(Mask mask) { return find(mask); }

    std::vector<Mask> masks;

private:
    std::uint32_t &find(Mask mask) {
        Mask at = (mask * 0x9E3779B97F4A7C15ULL) >> 20;
        for (;; ++at) {
            std::uint32_t &entry = table[at & (table.size() - 1)];
            if (entry == kNone || masks[entry] == mask) {
                return entry;
            }
        }
    }

    void rebuild(std::size_t size) {
        table.assign(size, kNone);
        for (std::size_t i = 0; i < masks.size(); ++i) {
            find(masks[i]) = static_cast<std::uint32_t>(i);
        }
    }

    std::vector<std::uint32_t> table = std::vector<std::uint32_t>(64, kNone);
};

/// The links of one row, with the place of each column in the masks.
struct Row {
    std::vector<std::size_t> links;
    std::vector<Mask> bits;
    std::vector<Scaled> weights;
    Mask kept = 0; ///< columns that a later row could ask for
};

/// The states after a row, and how those before it lead there.
struct Step {
    std::vector<Scaled> forward;
    std::vector<std::uint32_t> targets; ///< by state before and choice: idle, or a link of the row
    std::size_t reached = 0;            ///< states before merging, which `targets` counts
    /// By reached state, where some were merged: the state it became, with what factor, and whether
    /// it had to forget a column for that.
    std::vector<std::uint32_t> became;
    std::vector<Scaled> factors;
    std::vector<bool> forgot;
};

std::vector<Row> lay_out(const std::vector<Link> &links, bool &fits) {
    const auto by_row = group_links(links, &Link::row);
    const auto by_column = group_links(links, &Link::column);
    std::vector<Row> rows(by_row.size());
    std::vector<Mask> bit(by_column.size(), 0);
    Mask taken = 0;
    fits = true;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        rows[r].links = by_row[r];
        for (const std::size_t i : by_row[r]) {
            Mask &own = bit[links[i].column];
            own = own == 0 ? ~taken & (taken + 1) : own;
            fits = fits && own != 0;
            taken |= own;
            rows[r].bits.push_back(own);
            rows[r].weights.emplace_back(links[i].weight);
        }
        for (const std::size_t i : by_row[r]) {
            if (by_column[links[i].column].back() == i) {
                taken &= ~bit[links[i].column];
            }
        }
        rows[r].kept = taken;
    }
    return rows;
}

/// By place in the masks: the factor that the later rows are expected to lose with the column.
class Worth {
public:
    explicit Worth(const std::vector<Link> &links) : later(links.size(), 0.0) {
        const LinkMessages messages = pass_messages(links);
        for (const auto &column : group_links(links, &Link::column)) {
            double sum = 0.0;
            for (auto i = column.rbegin(); i != column.rend(); ++i) {
                later[*i] = sum;
                sum += links[*i].weight * messages.row_free[*i];
            }
        }
    }

    void pass(const Row &row) {
        for (std::size_t j = 0; j < row.links.size(); ++j) {
            loss[static_cast<std::size_t>(std::countr_zero(row.bits[j]))] =
                1.0 / (1.0 + later[row.links[j]]);
        }
    }

    [[nodiscard]] double of(std::size_t place) const { return loss[place]; }

    /// Places, those first that are missed least.
    [[nodiscard]] std::array<std::size_t, 64> order() const {
        std::array<std::size_t, 64> places{};
        std::iota(places.begin(), places.end(), 0);
        std::stable_sort(places.begin(), places.end(),
                         [&](std::size_t a, std::size_t b) { return loss[a] > loss[b]; });
        return places;
    }

private:
    std::vector<double> later;
    std::array<double, 64> loss{};
};

/// Logarithms (base 2) of the expected weight of all matchings that go through each state.
std::vector<double> expected_weights(const std::vector<Mask> &masks,
                                     const std::vector<Scaled> &forward, const Worth &worth) {
    std::vector<double> weights;
    for (std::size_t s = 0; s < masks.size(); ++s) {
        double weight = forward[s].log2();
        for (Mask rest = masks[s]; rest != 0; rest &= rest - 1) {
            weight += std::log2(worth.of(static_cast<std::size_t>(std::countr_zero(rest))));
        }
        weights.push_back(weight);
    }
    return weights;
}

/// The `width` states that carry the most expected weight, and the empty one; `share` is what the
/// others carry of it.
StateIndex select(const std::vector<Mask> &masks, const std::vector<double> &weights,
                  std::size_t width, double &share) {
    std::vector<std::size_t> order(masks.size());
    std::iota(order.begin(), order.end(), 0);
    std::nth_element(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(width), order.end(),
                     [&](std::size_t a, std::size_t b) { return weights[a] > weights[b]; });
    const double largest = *std::max_element(weights.begin(), weights.end());
    StateIndex kept;
    kept.number(0);
    double inside = 0.0;
    double outside = 0.0;
    for (std::size_t i = 0; i < masks.size(); ++i) {
        (i < width ? inside : outside) += std::exp2(weights[order[i]] - largest);
        if (i < width) {
            kept.number(masks[order[i]]);
        }
    }
    share = outside / (inside + outside);
    return kept;
}

/// Merges the states beyond `width`, unless that is expected to touch more than `tolerance` of the
/// weight; returns the share that it touches.
double merge(Step &step, std::vector<Mask> &masks, const Worth &worth, std::size_t width,
             double tolerance) {
    double share = 0.0;
    StateIndex kept = select(masks, expected_weights(masks, step.forward, worth), width, share);
    if (share > tolerance) {
        return share;
    }
    const std::array<std::size_t, 64> order = worth.order();
    std::vector<Scaled> forward(kept.masks.size());
    for (std::size_t s = 0; s < masks.size(); ++s) {
        Mask mask = masks[s];
        Scaled factor(1.0);
        for (auto place = order.begin(); kept.look_up(mask) == kNone; ++place) {
            const Mask bit = Mask{1} << *place;
            if ((mask & bit) != 0) {
                factor = factor * Scaled(worth.of(*place));
                mask &= ~bit;
            }
        }
        step.became.push_back(kept.look_up(mask));
        step.factors.push_back(factor);
        step.forgot.push_back(mask != masks[s]);
        forward[step.became.back()] += step.forward[s] * factor;
    }
    step.forward = std::move(forward);
    masks = std::move(kept.masks);
    return share;
}

/// Takes all choices of a row from each state; `masks` are replaced by those after the row.
Step advance(const Row &row, std::vector<Mask> &masks, const std::vector<Scaled> &forward) {
    Step step;
    StateIndex next;
    const auto arrive = [&](Mask mask, const Scaled &weight) {
        const std::uint32_t target = next.number(mask & row.kept);
        if (target == step.forward.size()) {
            step.forward.push_back(weight);
        } else {
            step.forward[target] += weight;
        }
        step.targets.push_back(target);
    };
    step.targets.reserve(masks.size() * (row.links.size() + 1));
    for (std::size_t s = 0; s < masks.size(); ++s) {
        arrive(masks[s], forward[s]);
        for (std::size_t j = 0; j < row.links.size(); ++j) {
            if ((masks[s] & row.bits[j]) != 0) {
                step.targets.push_back(kNone);
            } else {
                arrive(masks[s] | row.bits[j], forward[s] * row.weights[j]);
            }
        }
    }
    masks = std::move(next.masks);
    step.reached = masks.size();
    return step;
}

/// Total weight if whatever forgot a column keeps its weight, or if it is left out.
Scaled bracket(const std::vector<Row> &rows, const std::vector<Step> &steps, bool keep) {
    std::vector<Scaled> forward{Scaled(1.0)};
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const std::size_t choices = rows[r].links.size() + 1;
        std::vector<Scaled> reached(steps[r].reached);
        for (std::size_t i = 0; i < steps[r].targets.size(); ++i) {
            if (steps[r].targets[i] != kNone) {
                const Scaled &weight = forward[i / choices];
                reached[steps[r].targets[i]] +=
                    i % choices == 0 ? weight : weight * rows[r].weights[i % choices - 1];
            }
        }
        if (!steps[r].became.empty()) {
            forward.assign(steps[r].forward.size(), Scaled());
            for (std::size_t t = 0; t < reached.size(); ++t) {
                if (keep || !steps[r].forgot[t]) {
                    forward[steps[r].became[t]] += reached[t];
                }
            }
        } else {
            forward = std::move(reached);
        }
    }
    return forward.front();
}

/// What follows each reached state of a step, from what follows those it became.
std::vector<Scaled> unmerge(const Step &step, std::vector<Scaled> backward) {
    if (step.became.empty()) {
        return backward;
    }
    std::vector<Scaled> reached;
    for (std::size_t t = 0; t < step.reached; ++t) {
        reached.push_back(step.factors[t] * backward[step.became[t]]);
    }
    return reached;
}

/// Backward pass: fills the marginals.
void read_off(const std::vector<Row> &rows, const std::vector<Step> &steps,
              TrellisMarginals &marginals) {
    const Scaled total = steps.back().forward.front();
    const std::vector<Scaled> start{Scaled(1.0)};
    std::vector<Scaled> backward = start;
    for (std::size_t r = rows.size(); r-- > 0;) {
        const std::vector<Scaled> reached = unmerge(steps[r], std::move(backward));
        const std::vector<Scaled> &forward = r == 0 ? start : steps[r - 1].forward;
        const std::size_t choices = rows[r].links.size() + 1;
        std::vector<Scaled> shares(choices);
        backward.assign(forward.size(), Scaled());
        for (std::size_t i = 0; i < steps[r].targets.size(); ++i) {
            if (steps[r].targets[i] != kNone) {
                const std::size_t j = i % choices;
                const Scaled &after = reached[steps[r].targets[i]];
                const Scaled weighted = j == 0 ? after : after * rows[r].weights[j - 1];
                backward[i / choices] += weighted;
                shares[j] += forward[i / choices] * weighted;
            }
        }
        marginals.idle[r] = shares[0].share_of(total);
        for (std::size_t j = 1; j < choices; ++j) {
            marginals.links[rows[r].links[j - 1]] = shares[j].share_of(total);
        }
    }
}

} // namespace

std::optional<TrellisMarginals> solve_trellis(const std::vector<Link> &links, std::size_t width,
                                              double tolerance) {
    bool fits = true;
    const std::vector<Row> rows = lay_out(links, fits);
    if (!fits) {
        return std::nullopt;
    }
    std::optional<Worth> worth;
    if (tolerance > 0.0) {
        worth.emplace(links);
    }
    std::vector<Step> steps;
    std::vector<Mask> masks{0};
    const std::vector<Scaled> start{Scaled(1.0)};
    double merged = 0.0;
    for (const Row &row : rows) {
        steps.push_back(advance(row, masks, steps.empty() ? start : steps.back().forward));
        if (worth) {
            worth->pass(row);
        }
        if (masks.size() > width) {
            merged += worth ? merge(steps.back(), masks, *worth, width, tolerance - merged) : 1.0;
        }
        if (merged > tolerance) {
            return std::nullopt;
        }
    }
    TrellisMarginals marginals{std::vector<double>(links.size()), std::vector<double>(rows.size())};
    read_off(rows, steps, marginals);
    if (merged > 0.0) {
        marginals.error_bound =
            1.0 - bracket(rows, steps, false).share_of(bracket(rows, steps, true));
    }
    return marginals;
}

double trellis_cost(const std::vector<Link> &links) {
    const auto by_column = group_links(links, &Link::column);
    std::vector<int> change; // of the number of columns that are open, by row
    for (const auto &column : by_column) {
        if (!column.empty()) {
            const std::size_t last = links[column.back()].row;
            change.resize(std::max(change.size(), last + 1));
            ++change[links[column.front()].row];
            --change[last];
        }
    }
    double cost = 0.0;
    int open = 0;
    const auto by_row = group_links(links, &Link::row);
    for (std::size_t r = 0; r < by_row.size(); ++r) {
        cost += std::exp2(open) * static_cast<double>(by_row[r].size() + 1);
        open += change[r];
    }
    return cost;
}

} // namespace cospot::matcher
