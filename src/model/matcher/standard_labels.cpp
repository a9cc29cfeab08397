#include "model/matcher/standard_labels.h"

#include "model/matcher/run_grid.h"
#include "shared/robust.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <set>
#include <utility>

namespace cospot::matcher {

namespace {

// How often labels are wrong, of all runs with standards (assumed, MODEL.md section 5).
constexpr double kExchanged = 0.04;
constexpr double kReversed = 0.01;
constexpr double kOneWrong = 0.01;
/// A label is worth a look where all are right with less than this probability: looking costs
/// little beside what a wrong standard does.
constexpr double kSureEnough = 0.95;
constexpr double kStep = 1.5; ///< of the grid, in spreads

/// By how much less than the library says the standards of one run may scatter, and how likely that
/// is (assumed): a library pools bottles and years, a run has one of each. Standards that agree
/// among each other then tell an exchange that lies within the library's spread.
struct Tightness {
    double factor;
    double weight;
};
constexpr std::array<Tightness, 3> kTightness{{{1.0, 0.5}, {0.5, 0.3}, {0.25, 0.2}}};

/// A reading that tells something of its label.
struct Known {
    std::size_t reading; ///< position
    const CandidateDensity *held;
    double on_line;
    double scaled;
    double log_unlisted;
};

/// One way in which the labels may be: for each of the known readings the one whose label is its
/// own, or none.
struct Labelling {
    LabelFault fault;
    double log_prior;
    std::vector<std::optional<std::size_t>> label_of;
    double probability = 0.0;
};

std::vector<Known> known_of(std::span<const LabelledReading> readings, const SystemModel &system) {
    std::vector<Known> known;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const CandidateDensity *held = find_candidate(system, readings[i].compound);
        if (held == nullptr || held->always != Censoring::none ||
            censoring(system.quantity, readings[i].value) != Censoring::none) {
            continue;
        }
        const double scaled = to_model_scale(system.quantity, readings[i].value);
        known.push_back({i, held, to_line_scale(system.quantity, scaled), scaled,
                         log_density(system.unlisted, system.quantity, readings[i].value,
                                     readings[i].uncertainty)});
    }
    return known;
}

/// Positions of the readings that lie off the library or off what the others show: only their
/// labels can be wrong.
std::vector<std::size_t> suspicious(const std::vector<Known> &known) {
    constexpr double spreads = 1.5;
    constexpr std::size_t few = 12; // then all are compared
    std::vector<double> off;
    for (const Known &one : known) {
        off.push_back((one.scaled - one.held->location) / one.held->scale);
    }
    const double middle = upper_median(off);
    std::vector<std::size_t> positions;
    for (std::size_t i = 0; i < off.size(); ++i) {
        if (off.size() <= few || std::abs(off[i]) > spreads ||
            std::abs(off[i] - middle) > spreads) {
            positions.push_back(i);
        }
    }
    return positions;
}

std::vector<std::optional<std::size_t>> as_given(std::size_t count) {
    std::vector<std::optional<std::size_t>> labels(count);
    for (std::size_t i = 0; i < count; ++i) {
        labels[i] = i;
    }
    return labels;
}

std::vector<std::optional<std::size_t>> reversed(const std::vector<Known> &known) {
    std::vector<std::size_t> order(known.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return known[a].held->location < known[b].held->location;
    });
    std::vector<std::optional<std::size_t>> labels(known.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        labels[order[i]] = order[order.size() - 1 - i];
    }
    return labels;
}

std::vector<Labelling> labellings_of(const std::vector<Known> &known,
                                     const std::vector<std::size_t> &doubtful) {
    const std::size_t n = known.size();
    std::vector<Labelling> all{
        {LabelFault::none, std::log(1.0 - kExchanged - kReversed - kOneWrong), as_given(n)}};
    const auto pairs = static_cast<double>(n * (n - 1)) / 2.0;
    for (auto i = doubtful.begin(); i != doubtful.end(); ++i) {
        for (auto j = i + 1; j != doubtful.end(); ++j) {
            if (known[*i].held != known[*j].held) {
                auto labels = as_given(n);
                std::swap(labels[*i], labels[*j]);
                all.push_back({LabelFault::exchanged, std::log(kExchanged / pairs), labels});
            }
        }
        auto labels = as_given(n);
        labels[*i].reset();
        all.push_back(
            {LabelFault::one_wrong, std::log(kOneWrong / static_cast<double>(n)), labels});
    }
    std::set<const CandidateDensity *> compounds;
    for (const Known &one : known) {
        compounds.insert(one.held);
    }
    if (compounds.size() > 3) { // of two and three it is an exchange
        all.push_back({LabelFault::reversed, std::log(kReversed), reversed(known)});
    }
    return all;
}

std::vector<RunCell> cells_for(const std::vector<Known> &known, const SystemModel &system,
                               const RunPrior &prior, double tightness) {
    double farthest = 0.0;
    double steepness = 0.0;
    std::vector<double> scales;
    for (const Known &one : known) {
        farthest = std::max(farthest, std::abs(one.on_line - prior.centre));
        steepness = std::max(steepness, std::abs(model_per_line(system.quantity, one.on_line)));
        scales.push_back(one.held->scale);
    }
    std::sort(scales.begin(), scales.end());
    return all_cells(prior, kStep * tightness * scales[scales.size() / 2] / steepness, farthest);
}

/// Logarithm of the density of reading `i` where it is the compound of label `j` and the run lies
/// in the cell.
double log_fit(const Known &reading, const Known &label, double tightness, double uncertainty,
               double value, const RunCell &cell, const RunPrior &prior, Quantity quantity) {
    const double there = from_line_scale(quantity, cell.in_library(reading.on_line, prior));
    const double blur =
        blur_of(cell, reading.on_line - prior.centre) * model_per_line(quantity, reading.on_line);
    CandidateDensity density = *label.held;
    density.scale *= tightness;
    return log_density(density, quantity, value, uncertainty,
                       {reading.scaled - there, blur * blur});
}

/// The readings with labels that any labelling gives them.
std::set<std::pair<std::size_t, std::size_t>> asked_fits(const std::vector<Labelling> &labellings,
                                                         std::size_t n) {
    std::set<std::pair<std::size_t, std::size_t>> asked;
    for (const Labelling &labelling : labellings) {
        for (std::size_t i = 0; i < n; ++i) {
            if (labelling.label_of[i]) {
                asked.emplace(i, *labelling.label_of[i]);
            }
        }
    }
    return asked;
}

/// Adds to the sums what the labellings explain where the standards scatter as tightly as that.
void add_evidence(std::vector<double> &sums, const Tightness &tightness,
                  const std::vector<Labelling> &labellings, const std::vector<Known> &known,
                  std::span<const LabelledReading> readings, const SystemModel &system) {
    const RunPrior prior = run_prior(system);
    const std::size_t n = known.size();
    double reference = -std::log(tightness.weight); // all of them something else
    for (const Known &one : known) {
        reference += one.log_unlisted;
    }
    const auto asked = asked_fits(labellings, n);
    std::vector<double> fits(n * n);
    for (const RunCell &cell : cells_for(known, system, prior, tightness.factor)) {
        for (const auto &[i, j] : asked) {
            const LabelledReading &reading = readings[known[i].reading];
            fits[i * n + j] = log_fit(known[i], known[j], tightness.factor, reading.uncertainty,
                                      reading.value, cell, prior, system.quantity);
        }
        for (std::size_t h = 0; h < labellings.size(); ++h) {
            double log_likelihood = labellings[h].log_prior + cell.log_prior - reference;
            for (std::size_t i = 0; i < n; ++i) {
                const auto &label = labellings[h].label_of[i];
                log_likelihood += label ? fits[i * n + *label] : known[i].log_unlisted;
            }
            sums[h] += std::exp(log_likelihood);
        }
    }
}

/// Sets the probabilities of the labellings.
void weigh_labellings(std::vector<Labelling> &labellings, const std::vector<Known> &known,
                      std::span<const LabelledReading> readings, const SystemModel &system) {
    std::vector<double> sums(labellings.size(), 0.0);
    for (const Tightness &tightness : kTightness) {
        add_evidence(sums, tightness, labellings, known, readings, system);
    }
    const double total = std::accumulate(sums.begin(), sums.end(), 0.0);
    for (std::size_t h = 0; h < labellings.size(); ++h) {
        labellings[h].probability = total > 0.0 ? sums[h] / total : (h == 0 ? 1.0 : 0.0);
    }
}

} // namespace

std::string fault_words(const LabelCheck &check) {
    const bool is_likely = check.as_given < 0.5;
    switch (check.fault) {
    case LabelFault::exchanged:
        return is_likely ? "the labels of two standards seem exchanged"
                         : "the labels of two standards may be exchanged";
    case LabelFault::reversed:
        return is_likely ? "the labels of the standards seem to be in reverse order"
                         : "the labels of the standards may be in reverse order";
    case LabelFault::one_wrong:
        return is_likely ? "the label of a standard seems wrong"
                         : "the label of a standard may be wrong";
    case LabelFault::none:
        break;
    }
    return "the labels are right";
}

LabelCheck check_labels(std::span<const LabelledReading> readings, const SystemModel &system) {
    constexpr double likelier = 0.5;
    constexpr std::size_t most = 60; // compared in pairs
    LabelCheck check;
    for (const LabelledReading &reading : readings) {
        check.would_be.emplace_back(reading.compound);
    }
    check.trusted.assign(readings.size(), true);
    std::vector<Known> known = known_of(readings, system);
    known.resize(std::min(known.size(), most));
    const std::vector<std::size_t> doubtful =
        known.empty() ? std::vector<std::size_t>{} : suspicious(known);
    if (doubtful.empty()) {
        return check;
    }
    std::vector<Labelling> labellings = labellings_of(known, doubtful);
    weigh_labellings(labellings, known, readings, system);
    check.as_given = labellings.front().probability;
    for (std::size_t i = 0; i < known.size(); ++i) {
        double right = 0.0;
        for (const Labelling &labelling : labellings) {
            right += labelling.label_of[i] == i ? labelling.probability : 0.0;
        }
        check.trusted[known[i].reading] = right > likelier;
    }
    if (check.as_given >= kSureEnough) {
        return check;
    }
    const auto best = std::max_element(
        labellings.begin() + 1, labellings.end(),
        [](const Labelling &a, const Labelling &b) { return a.probability < b.probability; });
    check.fault = best->fault;
    for (std::size_t i = 0; i < known.size(); ++i) {
        const auto &label = best->label_of[i];
        const std::size_t reading = known[i].reading;
        check.would_be[reading] =
            label ? std::optional(known[*label].held->compound) : std::nullopt;
        check.trusted[reading] =
            check.trusted[reading] && (check.as_given > likelier || label == i);
    }
    return check;
}

} // namespace cospot::matcher
