#include "model/matcher/assignment_messages.h"

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

namespace {

using Groups = std::vector<std::vector<std::size_t>>;

/// Moves `free` half way to what follows from `arriving`; returns the largest relative change.
double update(const Groups &groups, const std::vector<Link> &links,
              const std::vector<double> &arriving, std::vector<double> &free) {
    double change = 0.0;
    const std::vector<double> others = free_of_others(groups, links, arriving);
    for (std::size_t i = 0; i < links.size(); ++i) {
        const double next = std::sqrt(free[i]) * std::sqrt(others[i]);
        change = std::max(change, std::abs(next - free[i]) / std::max(next, free[i]));
        free[i] = next;
    }
    return change;
}

} // namespace

std::vector<std::vector<std::size_t>> group_links(const std::vector<Link> &links,
                                                  std::size_t Link::*end) {
    Groups groups;
    for (std::size_t i = 0; i < links.size(); ++i) {
        groups.resize(std::max(groups.size(), links[i].*end + 1));
        groups[links[i].*end].push_back(i);
    }
    return groups;
}

std::vector<double> free_of_others(const std::vector<std::vector<std::size_t>> &groups,
                                   const std::vector<Link> &links,
                                   const std::vector<double> &arriving) {
    std::vector<double> others(links.size(), 1.0);
    for (const std::vector<std::size_t> &group : groups) {
        // From both ends, so that no sum is lost by taking a heavy link out of it again.
        double before = 0.0;
        double after = 0.0;
        for (std::size_t i = 0; i < group.size(); ++i) {
            const std::size_t forth = group[i];
            const std::size_t back = group[group.size() - 1 - i];
            others[forth] += before;
            others[back] += after;
            before += links[forth].weight * arriving[forth];
            after += links[back].weight * arriving[back];
        }
    }
    for (double &other : others) {
        other = 1.0 / other;
    }
    return others;
}

LinkMessages pass_messages(const std::vector<Link> &links) {
    constexpr int kRounds = 300;
    constexpr double kConverged = 1e-9;
    const Groups rows = group_links(links, &Link::row);
    const Groups columns = group_links(links, &Link::column);
    LinkMessages messages{std::vector<double>(links.size(), 1.0),
                          std::vector<double>(links.size(), 1.0)};
    for (int round = 0; round < kRounds; ++round) {
        const double change = update(rows, links, messages.column_free, messages.row_free);
        if (std::max(change, update(columns, links, messages.row_free, messages.column_free)) <
            kConverged) {
            break;
        }
    }
    return messages;
}

std::vector<double> link_probabilities(const std::vector<Link> &links,
                                       const LinkMessages &messages) {
    std::vector<double> probabilities(links.size());
    for (const std::vector<std::size_t> &row : group_links(links, &Link::row)) {
        double total = 1.0;
        for (const std::size_t i : row) {
            probabilities[i] = links[i].weight * messages.column_free[i];
            total += probabilities[i];
        }
        for (const std::size_t i : row) {
            probabilities[i] /= total;
        }
    }
    return probabilities;
}

double message_error_bound(const std::vector<Link> &links,
                           const std::vector<double> &probabilities) {
    const Groups rows = group_links(links, &Link::row);
    const Groups columns = group_links(links, &Link::column);
    // The probability that an end is free falls with that of its neighbours in the graph without
    // it, so that lower and upper bounds alternate.
    const std::vector<double> ones(links.size(), 1.0);
    const std::vector<double> row_low = free_of_others(rows, links, ones);
    const std::vector<double> row_high =
        free_of_others(rows, links, free_of_others(columns, links, ones));
    const std::vector<double> low = free_of_others(columns, links, row_high);
    const std::vector<double> high = free_of_others(columns, links, row_low);
    const std::vector<double> others_low = free_of_others(rows, links, high);
    const std::vector<double> others_high = free_of_others(rows, links, low);
    double error = 0.0;
    const auto probability = [](double odds) { return odds / (1.0 + odds); };
    for (std::size_t i = 0; i < links.size(); ++i) {
        const double least = probability(links[i].weight * low[i] * others_low[i]);
        const double most = probability(links[i].weight * high[i] * others_high[i]);
        error = std::max({error, probabilities[i] - least, most - probabilities[i]});
    }
    for (const std::vector<std::size_t> &row : rows) {
        double least = 0.0;
        double most = 0.0;
        double passed = 0.0;
        for (const std::size_t i : row) {
            least += links[i].weight * low[i];
            most += links[i].weight * high[i];
            passed += probabilities[i];
        }
        error = std::max({error, passed - probability(least), probability(most) - passed});
    }
    return error;
}

} // namespace cospot::matcher
