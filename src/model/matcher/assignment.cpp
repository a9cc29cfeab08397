#include "model/matcher/assignment.h"

#include "model/matcher/assignment_messages.h"
#include "model/matcher/assignment_sampling.h"
#include "model/matcher/assignment_trellis.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>
#include <optional>
#include <stdexcept>
#include <string>
#include <unordered_map>
#include <utility>

namespace cospot::matcher {

namespace {

constexpr double kLargestOdds = 1e300;
constexpr double kMergers =
    0.002; ///< expected share that mergers may touch; beyond, no bound is near
constexpr double kRounding = 1e-12;
/// Errors below it are taken for less work: features of a crowded problem that others touch with
/// less than this probability stand alone, and messages with such a bound are good enough.
constexpr double kSmallError = 0.002;
/// Stated for messages that nothing better is known of; assignment_test.cpp compares with exact
/// results.
constexpr double kMessageError = 0.25;
/// A bound that is not worth a look for something better.
constexpr double kGoodEnough = 0.02;
/// Two chains of draws that differ by twice that have not seen all matchings that matter.
constexpr double kUnsettled = 0.05;
/// The largest half difference of two chains is the size of the errors of their mean, which few
/// exceed twice; four times are stated.
constexpr double kChances = 4.0;
/// Draws cannot leave a matching with links of more weight by the ways that they take.
constexpr double kHeaviestForDraws = 1e6;

/// The edges that compete: compounds that several features could be. Those that only one could be
/// are folded into that feature's weight without a link, `alone`, by which its links are divided.
struct Competition {
    std::vector<double> alone;
    std::vector<Link> links; ///< rows are features
    std::vector<std::size_t> edges;
    std::vector<double> probabilities; ///< by link
    std::vector<double> idle;          ///< by feature: it has none of its links
    double contested = 0.0;            ///< largest probability that a competition was left out for
};

void check(double odds) {
    if (!(odds >= 0.0 && odds <= kLargestOdds)) {
        throw std::invalid_argument("odds must be from 0 to 1e300, not " + std::to_string(odds));
    }
}

/// A compound over all features.
struct Use {
    std::size_t column = 0;
    std::size_t features = 0; ///< that it could be
    double probability = 0.0; ///< sum over the features, each by itself
};

/// By compound.
std::vector<Use> uses_of(const AssignmentProblem &problem) {
    std::vector<Use> uses;
    std::size_t columns = 0;
    for (const auto &feature : problem.features) {
        double total = 1.0;
        for (const Edge &edge : feature) {
            check(edge.odds);
            total += edge.odds;
        }
        for (const Edge &edge : feature) {
            if (edge.odds > 0.0) {
                uses.resize(std::max(uses.size(), edge.compound + 1));
                Use &use = uses[edge.compound];
                use.column = use.features == 0 ? columns++ : use.column;
                ++use.features;
                use.probability += edge.odds / total;
            }
        }
    }
    return uses;
}

/// Of a crowded problem, whether competition matters so little to a feature that all its compounds
/// may count as its own: the probability that another feature has the one that it would have.
class Uncontested {
public:
    Uncontested(const AssignmentProblem &problem, const std::vector<Use> &uses) : uses_(&uses) {
        constexpr std::size_t crowded = 5000;
        std::size_t edges = 0;
        for (const auto &feature : problem.features) {
            edges += feature.size();
        }
        is_crowded_ = edges > crowded;
    }

    [[nodiscard]] bool operator()(const std::vector<Edge> &feature) {
        if (!is_crowded_) {
            return false;
        }
        double total = 1.0;
        for (const Edge &edge : feature) {
            total += edge.odds;
        }
        double contested = 0.0;
        for (const Edge &edge : feature) {
            const double own = edge.odds / total;
            contested += edge.odds > 0.0 ? own * ((*uses_)[edge.compound].probability - own) : 0.0;
        }
        if (contested > kSmallError) {
            return false;
        }
        largest_ = std::max(largest_, contested);
        return true;
    }
    [[nodiscard]] double largest() const { return largest_; }

private:
    const std::vector<Use> *uses_;
    bool is_crowded_ = false;
    double largest_ = 0.0;
};

Competition fold(const AssignmentProblem &problem) {
    const std::vector<Use> uses = uses_of(problem);
    Uncontested uncontested(problem, uses);
    Competition competition;
    competition.idle.assign(problem.features.size(), 1.0);
    for (std::size_t f = 0; f < problem.features.size(); ++f) {
        double alone = 1.0;
        const std::size_t first = competition.links.size();
        const bool is_uncontested = uncontested(problem.features[f]);
        for (std::size_t e = 0; e < problem.features[f].size(); ++e) {
            const auto &[compound, odds] = problem.features[f][e];
            if (odds > 0.0 && (is_uncontested || uses[compound].features == 1)) {
                alone += odds;
            } else if (odds > 0.0) {
                competition.links.push_back({f, uses[compound].column, odds});
                competition.edges.push_back(e);
            }
        }
        for (std::size_t i = first; i < competition.links.size(); ++i) {
            competition.links[i].weight /= alone;
        }
        competition.alone.push_back(alone);
    }
    competition.probabilities.assign(competition.links.size(), 0.0);
    competition.contested = uncontested.largest();
    return competition;
}

using Chosen = std::vector<std::size_t>; ///< positions of links, ascending

/// Splits links into those that are connected with each other through rows or columns.
std::vector<Chosen> components(const std::vector<Link> &links, const Chosen &chosen) {
    std::vector<std::size_t> parent(links.size());
    std::iota(parent.begin(), parent.end(), 0);
    const auto root = [&](std::size_t i) {
        while (parent[i] != i) {
            i = parent[i] = parent[parent[i]];
        }
        return i;
    };
    std::unordered_map<std::size_t, std::size_t> rows;
    std::unordered_map<std::size_t, std::size_t> columns;
    for (const std::size_t i : chosen) {
        parent[root(i)] = root(rows.try_emplace(links[i].row, i).first->second);
        parent[root(i)] = root(columns.try_emplace(links[i].column, i).first->second);
    }
    std::unordered_map<std::size_t, std::size_t> numbers;
    std::vector<Chosen> parts;
    for (const std::size_t i : chosen) {
        const auto [number, is_new] = numbers.try_emplace(root(i), parts.size());
        if (is_new) {
            parts.emplace_back();
        }
        parts[number->second].push_back(i);
    }
    return parts;
}

/// One component by itself, with rows and columns numbered from 0; the rows are compounds and the
/// columns features where that makes the trellis narrower.
struct Part {
    Chosen chosen; ///< in the order of `links`
    std::vector<Link> links;
    bool transposed = false;
};

void number_from_zero(std::vector<Link> &links, std::size_t Link::*end) {
    std::unordered_map<std::size_t, std::size_t> numbers;
    for (Link &link : links) {
        link.*end = numbers.try_emplace(link.*end, numbers.size()).first->second;
    }
}

Part make_part(const Competition &competition, Chosen chosen) {
    Part part{std::move(chosen), {}};
    for (const std::size_t i : part.chosen) {
        part.links.push_back(competition.links[i]);
    }
    number_from_zero(part.links, &Link::row);
    number_from_zero(part.links, &Link::column);
    // Compounds by the middle of the features that they could be.
    const auto by_column = group_links(part.links, &Link::column);
    const auto middle = [&](std::size_t i) {
        const auto &column = by_column[part.links[i].column];
        return part.links[column.front()].row + part.links[column.back()].row;
    };
    std::vector<std::size_t> order(part.links.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const std::size_t at_a = middle(a);
        const std::size_t at_b = middle(b);
        return at_a != at_b ? at_a < at_b : part.links[a].column < part.links[b].column;
    });
    Part other;
    other.transposed = true;
    for (const std::size_t i : order) {
        const Link &link = part.links[i];
        other.chosen.push_back(part.chosen[i]);
        other.links.push_back({link.column, link.row, link.weight});
    }
    number_from_zero(other.links, &Link::row);
    return trellis_cost(other.links) < trellis_cost(part.links) ? other : part;
}

void store(const Part &part, const std::vector<double> &probabilities, Competition &competition) {
    for (std::size_t i = 0; i < part.chosen.size(); ++i) {
        const std::size_t link = part.chosen[i];
        competition.probabilities[link] = probabilities[i];
        double &idle = competition.idle[competition.links[link].row];
        idle = std::max(0.0, idle - probabilities[i]);
    }
}

void store(const Part &part, const TrellisMarginals &trellis, Competition &competition) {
    store(part, trellis.links, competition);
    for (std::size_t i = 0; i < part.chosen.size(); ++i) {
        // 1 minus the sum loses small probabilities; the trellis over features does not.
        double &idle = competition.idle[competition.links[part.chosen[i]].row];
        idle = part.transposed ? idle : trellis.idle[part.links[i].row];
    }
}

std::optional<TrellisMarginals> solve(const Part &part, const AssignmentLimits &limits,
                                      double tolerance) {
    return solve_trellis(part.links, std::min(limits.states, limits.choices / part.links.size()),
                         tolerance);
}

/// Takes from `chosen` the links that are together less likely than `negligible`; returns the bound
/// on that. A link f-c has at most the probability w_fc / (1 + sum over d of w_fd / (1 + sum over g
/// other than f of w_gd)): in a graph without f, d is free at least that often (the recursion of
/// godsil1981 for matchings, from memory).
double drop_negligible(const std::vector<Link> &links, double negligible, Chosen &chosen) {
    std::vector<Link> part;
    for (const std::size_t i : chosen) {
        part.push_back(links[i]);
    }
    const std::vector<double> free = free_of_others(group_links(part, &Link::column), part,
                                                    std::vector<double>(part.size(), 1.0));
    std::vector<std::pair<double, std::size_t>> bounds;
    for (const auto &row : group_links(part, &Link::row)) {
        double total = 1.0;
        for (const std::size_t i : row) {
            total += part[i].weight * free[i];
        }
        for (const std::size_t i : row) {
            bounds.emplace_back(part[i].weight / total, chosen[i]);
        }
    }
    std::sort(bounds.begin(), bounds.end());
    double dropped = 0.0;
    chosen.clear();
    for (const auto &[bound, link] : bounds) {
        if (dropped + bound <= negligible) {
            dropped += bound;
        } else {
            chosen.push_back(link);
        }
    }
    std::sort(chosen.begin(), chosen.end());
    return dropped;
}

struct Error {
    double size = 0.0;
    ErrorBasis basis = ErrorBasis::bound;
};

/// Probabilities of the links of a part, and how good they are.
struct Approximation {
    std::vector<double> links;
    Error error;
};

/// The approximation or, where matchings drawn at random contradict it, these; with what they say
/// of its error, if that is less than what is known.
Approximation checked_by_draws(const std::vector<Link> &links, Approximation known) {
    const bool is_too_heavy = std::any_of(links.begin(), links.end(), [](const Link &link) {
        return link.weight > kHeaviestForDraws;
    });
    const SampledLinks drawn = is_too_heavy ? SampledLinks{} : sample_links(links);
    if (drawn.noise > kUnsettled) {
        return known;
    }
    double off = 0.0;
    for (std::size_t i = 0; i < links.size(); ++i) {
        off = std::max(off, std::abs(known.links[i] - drawn.probabilities[i]));
    }
    const double noise = kChances * drawn.noise;
    const double size = off > noise ? noise : off + noise;
    if (size >= known.error.size) {
        return known;
    }
    known.error = {size, ErrorBasis::estimate};
    if (off > noise) {
        known.links = drawn.probabilities;
    }
    return known;
}

/// A component that was too wide to be exact, at least with its negligible links.
Error approximate(const Part &part, const AssignmentLimits &limits, Competition &competition) {
    const std::vector<double> passed = link_probabilities(part.links, pass_messages(part.links));
    const double bound = message_error_bound(part.links, passed);
    if (bound < kSmallError) {
        store(part, passed, competition);
        return {bound};
    }
    const auto trellis = solve(part, limits, kMergers);
    if (trellis && trellis->error_bound < std::min(bound, kGoodEnough)) {
        store(part, *trellis, competition);
        return {trellis->error_bound};
    }
    Approximation known{passed, {bound}};
    if (trellis && trellis->error_bound < std::min(bound, kMessageError)) {
        known = {trellis->links, {trellis->error_bound}};
    } else if (bound >= kMessageError) {
        known.error = {kMessageError, ErrorBasis::estimate};
    }
    if (known.error.size > kGoodEnough) {
        known = checked_by_draws(part.links, std::move(known));
    }
    store(part, known.links, competition);
    return known.error;
}

/// Gives dropped links what is left for them: their weight times the chances that the feature has
/// none of its other links and that the compound is free; all together at most `dropped`.
void restore(const std::vector<std::size_t> &links, double dropped, Competition &competition) {
    std::unordered_map<std::size_t, double> used;
    for (std::size_t i = 0; i < competition.links.size(); ++i) {
        used[competition.links[i].column] += competition.probabilities[i];
    }
    for (const std::size_t i : links) {
        const Link &link = competition.links[i];
        const double free = std::max(0.0, 1.0 - used[link.column]);
        const double share = std::min(dropped, competition.idle[link.row] * link.weight * free);
        competition.probabilities[i] = share;
        dropped -= share;
    }
}

/// Fills the marginals of all links; components that are small enough exactly, then the others.
Error solve_all(const AssignmentLimits &limits, Competition &competition) {
    Chosen wide(competition.links.size());
    std::iota(wide.begin(), wide.end(), 0);
    Chosen rest;
    for (Chosen &chosen : components(competition.links, wide)) {
        const Part part = make_part(competition, chosen);
        const auto trellis = solve(part, limits, 0.0);
        if (trellis) {
            store(part, *trellis, competition);
        } else {
            rest.insert(rest.end(), chosen.begin(), chosen.end());
        }
    }
    if (rest.empty()) {
        return {kRounding, ErrorBasis::rounding};
    }
    std::sort(rest.begin(), rest.end());
    const Chosen before = rest;
    const double dropped = drop_negligible(competition.links, limits.negligible, rest);
    Chosen dropped_links;
    std::set_difference(before.begin(), before.end(), rest.begin(), rest.end(),
                        std::back_inserter(dropped_links));
    Error error;
    for (const Chosen &chosen : components(competition.links, rest)) {
        const Error own = approximate(make_part(competition, chosen), limits, competition);
        error = {std::max(error.size, own.size), std::max(error.basis, own.basis)};
    }
    restore(dropped_links, dropped, competition);
    return {std::min(1.0, error.size + 2.0 * dropped + kRounding), error.basis};
}

/// Shares what a feature has without its links among `unlisted` and the compounds of its own.
FeatureMarginals unfold(const std::vector<Edge> &edges, double idle, double alone,
                        const std::vector<std::pair<std::size_t, double>> &linked) {
    FeatureMarginals marginals;
    marginals.unlisted = idle / alone;
    for (const Edge &edge : edges) {
        marginals.probabilities.push_back(idle * (edge.odds / alone));
    }
    for (const auto &[edge, probability] : linked) {
        marginals.probabilities[edge] = probability;
    }
    const double total = std::accumulate(marginals.probabilities.begin(),
                                         marginals.probabilities.end(), marginals.unlisted);
    marginals.unlisted /= total;
    for (double &probability : marginals.probabilities) {
        probability /= total;
    }
    return marginals;
}

} // namespace

Marginals assign(const AssignmentProblem &problem, const AssignmentLimits &limits) {
    Competition competition = fold(problem);
    Error error = solve_all(limits, competition);
    if (competition.contested > 0.0) {
        error = {std::min(1.0, error.size + 2.0 * competition.contested),
                 std::max(error.basis, ErrorBasis::bound)};
    }
    Marginals marginals;
    marginals.error_bound = error.size;
    marginals.error_basis = error.basis;
    std::vector<std::vector<std::pair<std::size_t, double>>> linked(problem.features.size());
    for (std::size_t i = 0; i < competition.links.size(); ++i) {
        linked[competition.links[i].row].emplace_back(competition.edges[i],
                                                      competition.probabilities[i]);
    }
    for (std::size_t f = 0; f < problem.features.size(); ++f) {
        marginals.features.push_back(
            unfold(problem.features[f], competition.idle[f], competition.alone[f], linked[f]));
    }
    return marginals;
}

} // namespace cospot::matcher
