#include "model/matcher/assignment_sampling.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <random>

namespace cospot::matcher {

namespace {

/// Links looked at by one chain: some tenths of a second.
constexpr std::size_t kWork = 15'000'000;
constexpr std::size_t kFewestVisits = 200;  ///< of a row, on average
constexpr std::size_t kMostVisits = 20'000; ///< beyond, the noise is below all that is stated

constexpr std::size_t kNoLink = static_cast<std::size_t>(-1);

class Chain {
public:
    Chain(const std::vector<Link> &links, unsigned seed)
        : links_(&links), rows_(group_links(links, &Link::row)), engine_(seed),
          link_of_row_(rows_.size(), kNoLink), sums_(links.size(), 0.0),
          visits_(rows_.size(), 0.0) {
        auto columns = group_links(links, &Link::column);
        row_of_column_.assign(columns.size(), kNoLink);
        std::copy_if(columns.begin(), columns.end(), std::back_inserter(shared_),
                     [](const auto &column) { return column.size() > 1; });
    }

    /// Takes the heaviest links that go together.
    void begin_heavy() {
        std::vector<std::size_t> order(links_->size());
        std::iota(order.begin(), order.end(), 0);
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return (*links_)[a].weight > (*links_)[b].weight;
        });
        for (const std::size_t i : order) {
            const Link &link = (*links_)[i];
            if (link.weight > 1.0 && link_of_row_[link.row] == kNoLink &&
                row_of_column_[link.column] == kNoLink) {
                hold(link.row, i);
            }
        }
    }

    void run(std::size_t steps) {
        for (std::size_t step = 0; step < steps; ++step) {
            choose_anew(step >= steps / 4);
        }
    }

    [[nodiscard]] std::vector<double> means() const {
        std::vector<double> means = sums_;
        for (std::size_t i = 0; i < means.size(); ++i) {
            means[i] /= std::max(1.0, visits_[(*links_)[i].row]);
        }
        return means;
    }

private:
    /// What a row may hold: its links to columns that no other row has.
    struct Choices {
        std::vector<std::size_t> links;
        double total = 1.0; ///< of the weights and of holding nothing
    };

    std::size_t below(std::size_t n) {
        return static_cast<std::size_t>(uniform() * static_cast<double>(n));
    }
    double uniform() { return static_cast<double>(engine_()) * 0x1p-32; } // 32 bits of chance

    void release(std::size_t row) {
        if (link_of_row_[row] != kNoLink) {
            row_of_column_[(*links_)[link_of_row_[row]].column] = kNoLink;
            link_of_row_[row] = kNoLink;
        }
    }
    void hold(std::size_t row, std::size_t link) {
        link_of_row_[row] = link;
        row_of_column_[(*links_)[link].column] = row;
    }

    void gather(std::size_t row, Choices &choices) const {
        choices.links.clear();
        choices.total = 1.0;
        for (const std::size_t i : rows_[row]) {
            if (row_of_column_[(*links_)[i].column] == kNoLink) {
                choices.links.push_back(i);
                choices.total += (*links_)[i].weight;
            }
        }
    }

    /// The weight that the choices lose by each column; both lists are in the order of columns.
    static void match(const std::vector<Link> &links, const Choices &of, const Choices &others,
                      std::vector<double> &lost) {
        lost.assign(of.links.size(), 0.0);
        std::size_t j = 0;
        for (std::size_t i = 0; i < of.links.size(); ++i) {
            const std::size_t column = links[of.links[i]].column;
            while (j < others.links.size() && links[others.links[j]].column < column) {
                ++j;
            }
            if (j < others.links.size() && links[others.links[j]].column == column) {
                lost[i] = links[others.links[j]].weight;
            }
        }
    }

    /// Weights of a row's choices, over all that the other row may do beside them.
    void weigh(const Choices &own, const Choices &others, std::vector<double> &weights) {
        match(*links_, own, others, weights);
        for (std::size_t i = 0; i < weights.size(); ++i) {
            // What is left may vanish in rounding where one link has nearly all of it.
            weights[i] = (*links_)[own.links[i]].weight * std::max(others.total - weights[i], 1.0);
        }
    }

    void count(std::size_t row, const Choices &own, const std::vector<double> &weights,
               double idle) {
        const double total = std::accumulate(weights.begin(), weights.end(), idle);
        for (std::size_t i = 0; i < weights.size(); ++i) {
            sums_[own.links[i]] += weights[i] / total;
        }
        visits_[row] += 1.0;
    }

    /// Holds one of the choices, or nothing, whose weight is `idle`.
    void draw(std::size_t row, const Choices &own, const std::vector<double> &weights,
              double idle) {
        double left = uniform() * std::accumulate(weights.begin(), weights.end(), idle);
        for (std::size_t i = 0; i < weights.size(); ++i) {
            left -= weights[i];
            if (left < 0.0) {
                hold(row, own.links[i]);
                return;
            }
        }
    }

    void choose_anew(bool counts) {
        const auto &column = shared_[below(shared_.size())];
        const std::size_t first = below(column.size());
        const std::size_t second = (first + 1 + below(column.size() - 1)) % column.size();
        const std::size_t row = (*links_)[column[first]].row;
        const std::size_t other = (*links_)[column[second]].row;
        release(row);
        release(other);
        gather(row, own_);
        gather(other, others_);
        weigh(own_, others_, weights_);
        if (counts) {
            weigh(others_, own_, other_weights_);
            count(row, own_, weights_, others_.total);
            count(other, others_, other_weights_, own_.total);
        }
        draw(row, own_, weights_, others_.total);
        gather(other, others_);
        weights_.clear();
        for (const std::size_t i : others_.links) {
            weights_.push_back((*links_)[i].weight);
        }
        draw(other, others_, weights_, 1.0);
    }

    const std::vector<Link> *links_;
    std::vector<std::vector<std::size_t>> rows_;
    std::vector<std::vector<std::size_t>> shared_; ///< links of the columns of several rows
    std::mt19937 engine_;
    std::vector<std::size_t> link_of_row_;
    std::vector<std::size_t> row_of_column_;
    std::vector<double> sums_;   ///< by link
    std::vector<double> visits_; ///< by row
    Choices own_;
    Choices others_;
    std::vector<double> weights_;
    std::vector<double> other_weights_;
};

} // namespace

SampledLinks sample_links(const std::vector<Link> &links) {
    // Lists of links by row must be in the order of columns.
    std::vector<std::size_t> order(links.size());
    std::iota(order.begin(), order.end(), 0);
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return links[a].column < links[b].column; });
    std::vector<Link> sorted;
    sorted.reserve(links.size());
    for (const std::size_t i : order) {
        sorted.push_back(links[i]);
    }
    std::size_t rows = 0;
    for (const Link &link : links) {
        rows = std::max(rows, link.row + 1);
    }
    const std::size_t steps = std::clamp(kWork * rows / (6 * links.size()),
                                         kFewestVisits * rows / 2, kMostVisits * rows / 2);
    Chain empty(sorted, 1);
    Chain heavy(sorted, 2);
    heavy.begin_heavy();
    empty.run(steps);
    heavy.run(steps);
    const std::vector<double> one = empty.means();
    const std::vector<double> two = heavy.means();
    SampledLinks sampled{std::vector<double>(links.size()), 0.0};
    for (std::size_t i = 0; i < order.size(); ++i) {
        sampled.probabilities[order[i]] = 0.5 * (one[i] + two[i]);
        sampled.noise = std::max(sampled.noise, 0.5 * std::abs(one[i] - two[i]));
    }
    return sampled;
}

} // namespace cospot::matcher
