#include "model/matcher/run_registration.h"

#include "model/matcher/listed_density.h"
#include "model/matcher/reading_error.h"
#include "model/matcher/run_grid.h"
#include "model/matcher/run_readings.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace cospot::matcher {

namespace {

constexpr double kMislabelled = 0.05;      ///< probability that a standard is something else
constexpr double kFirstGridStep = 2.0;     ///< of the grid, in spreads
constexpr double kLastGridStep = 0.7;      ///< in spreads
constexpr double kNegligibleCell = 1e-6;   ///< probability of a cell
constexpr std::size_t kMostRefined = 1500; ///< cells that are cut further
constexpr int kGridRounds = 8;

/// So many readings, all of them far off anything that the library holds, fit nothing.
constexpr std::size_t kFewestAbsurd = 3;

/// A share of unlisted features that is tried, and how likely it was before.
struct Share {
    double value;
    double weight;
};

/// By how much likelier a reading is where it is a listed compound than where it is not.
double listed_ratio(const RunReading &reading, const RunCell &cell, const RunReadings &run,
                    const ListedDensity &listed) {
    const double on_line = cell.in_library(reading.on_line, run.prior);
    return listed.at(from_line_scale(run.system->quantity, on_line)) / reading.unlisted;
}

/// The same of a standard, with a small chance that it is something else.
double standard_ratio(const RunReading &reading, const RunCell &cell, const RunReadings &run) {
    const Quantity quantity = run.system->quantity;
    const double there = from_line_scale(quantity, cell.in_library(reading.on_line, run.prior));
    const double blur = blur_of(cell, reading.on_line - run.prior.centre) *
                        model_per_line(quantity, reading.on_line);
    const double density =
        std::exp(log_density(*reading.held, quantity, reading.value, reading.uncertainty,
                             {reading.scaled - there, blur * blur}));
    return (1.0 - kMislabelled) * density / reading.unlisted + kMislabelled;
}

/// The shares that are tried: what was believed counts as if four features had been seen, or is the
/// only one where the run may not correct it.
std::vector<Share> shares_to_try(const SamplePrior &prior) {
    constexpr std::array<double, 7> tried{0.03, 0.1, 0.25, 0.45, 0.7, 0.9, 0.98};
    constexpr double features = 4.0;
    constexpr double least = 1e-3; // none at all would make one stray feature impossible
    const double unlisted = prior.feature.unlisted;
    if (!prior.learn_unlisted) {
        return {{std::max(unlisted, least), 1.0}};
    }
    std::vector<Share> shares;
    double sum = 0.0;
    for (const double value : tried) {
        shares.push_back({value, std::pow(value, features * unlisted) *
                                     std::pow(1.0 - value, features * (1.0 - unlisted))});
        sum += shares.back().weight;
    }
    for (Share &share : shares) {
        share.weight /= sum;
    }
    return shares;
}

/// Logarithm of the evidence of all features where that share of them is unlisted.
double log_evidence(const std::vector<double> &ratios, double share) {
    constexpr std::size_t at_once = 16; // factors, before a product could leave the range
    double sum = 0.0;
    double product = 1.0;
    for (std::size_t i = 0; i < ratios.size(); ++i) {
        product *= share + (1.0 - share) * ratios[i];
        if (i % at_once == at_once - 1) {
            sum += std::log(product);
            product = 1.0;
        }
    }
    return sum + std::log(product);
}

/// Of one cell: the evidence of the features, and the share of unlisted ones that they show there.
struct CellEvidence {
    double features = 0.0; ///< logarithm
    double share = 0.0;
};

CellEvidence evidence_of(const RunCell &cell, const RunReadings &run, const ListedDensity &listed,
                         const std::vector<Share> &shares) {
    std::vector<double> ratios;
    ratios.reserve(run.features.size());
    for (const RunReading &reading : run.features) {
        ratios.push_back(listed_ratio(reading, cell, run, listed));
    }
    std::vector<double> logs;
    for (const Share &share : shares) {
        logs.push_back(log_evidence(ratios, share.value));
    }
    const double largest = *std::max_element(logs.begin(), logs.end());
    double sum = 0.0;
    double mean = 0.0;
    for (std::size_t s = 0; s < logs.size(); ++s) {
        const double weight = shares[s].weight * std::exp(logs[s] - largest);
        sum += weight;
        mean += weight * shares[s].value;
    }
    return {largest + std::log(sum), mean / sum};
}

/// All that was found of a run on a system.
struct Found {
    std::vector<RunCell> cells;
    ListedDensity listed;
    double share = 0.2;        ///< of unlisted features
    double log_features = 0.0; ///< logarithm of the evidence of the features against all unlisted
};

Found found_with(std::vector<RunCell> cells, const RunReadings &run,
                 std::span<const std::uint32_t> positions, const SamplePrior &prior,
                 double total_weight) {
    const Quantity quantity = run.system->quantity;
    const double blur = blur_of(cells.front(), run.middle - run.prior.centre) *
                        std::abs(model_per_line(quantity, run.middle));
    Stretch stretch{1e300, -1e300};
    for (const RunReading &reading : run.features) {
        const double far = farthest_shift(run.prior, quantity, reading.value);
        stretch.low = std::min(stretch.low, reading.scaled - far);
        stretch.high = std::max(stretch.high, reading.scaled + far);
    }
    Found found{std::move(cells),
                ListedDensity(*run.system, positions, prior.feature, total_weight, blur, stretch),
                0.0, 0.0};
    const auto shares = shares_to_try(prior);
    double largest = -1e300;
    std::vector<CellEvidence> evidence;
    for (RunCell &cell : found.cells) {
        evidence.push_back(evidence_of(cell, run, found.listed, shares));
        cell.log_evidence = evidence.back().features;
        for (const RunReading &standard : run.standards) {
            cell.log_evidence += std::log(standard_ratio(standard, cell, run));
        }
        largest = std::max(largest, cell.log_prior + evidence.back().features);
    }
    double sum = 0.0;
    double best = -1e300;
    for (std::size_t i = 0; i < evidence.size(); ++i) {
        const RunCell &cell = found.cells[i];
        sum += std::exp(cell.log_prior + evidence[i].features - largest);
        if (cell.log_prior + cell.log_evidence > best) {
            best = cell.log_prior + cell.log_evidence;
            found.share = evidence[i].share;
        }
    }
    found.log_features = largest + std::log(sum);
    weigh(found.cells, kNegligibleCell);
    return found;
}

Found find(const RunReadings &run, std::span<const std::uint32_t> positions,
           const SamplePrior &prior, double total_weight) {
    Found found = found_with(all_cells(run.prior, kFirstGridStep * run.spread, run.farthest), run,
                             positions, prior, total_weight);
    const double step = kLastGridStep * run.spread;
    for (int round = 0; round < kGridRounds && found.cells.size() <= kMostRefined; ++round) {
        auto cells = refined(found.cells, run.prior, step, run.farthest);
        if (cells.size() == found.cells.size()) {
            break;
        }
        found = found_with(std::move(cells), run, positions, prior, total_weight);
    }
    return found;
}

/// What the cells, weighted anew, say at a place.
ShiftMixture mixture_at(double on_line, const Found &found, const std::vector<double> &weights,
                        const RunReadings &run) {
    constexpr double part = 0.4;        // of a spread: closer shifts are told together
    constexpr double most_parts = 40.0; // in all
    const Quantity quantity = run.system->quantity;
    const double steepness = model_per_line(quantity, on_line);
    const double scaled = from_line_scale(quantity, on_line);
    std::vector<double> shifts;
    double low = 1e300;
    double high = -1e300;
    for (const RunCell &cell : found.cells) {
        shifts.push_back(scaled - from_line_scale(quantity, cell.in_library(on_line, run.prior)));
        low = std::min(low, shifts.back());
        high = std::max(high, shifts.back());
    }
    const double width =
        std::max({part * run.spread * std::abs(steepness), (high - low) / most_parts, 1e-12});
    struct Part {
        double weight = 0.0;
        double sum = 0.0;
        double squares = 0.0;
    };
    std::vector<Part> parts(static_cast<std::size_t>((high - low) / width) + 1);
    double total = 0.0;
    for (std::size_t i = 0; i < shifts.size(); ++i) {
        const double blur = blur_of(found.cells[i], on_line - run.prior.centre) * steepness;
        Part &its = parts[static_cast<std::size_t>((shifts[i] - low) / width)];
        its.weight += weights[i];
        its.sum += weights[i] * shifts[i];
        its.squares += weights[i] * (shifts[i] * shifts[i] + blur * blur);
        total += weights[i];
    }
    ShiftMixture mixture;
    double kept = 0.0;
    for (const Part &one : parts) {
        if (one.weight > kNegligibleCell * total) {
            const double mean = one.sum / one.weight;
            mixture.push_back(
                {one.weight, {mean, std::max(0.0, one.squares / one.weight - mean * mean)}});
            kept += one.weight;
        }
    }
    for (WeightedShift &one : mixture) {
        one.weight /= kept;
    }
    return mixture;
}

/// Tells each observation what the other readings of its run say there.
void tell(const Found &found, const RunReadings &run) {
    std::vector<double> weights;
    for (const RunCell &cell : found.cells) {
        weights.push_back(cell.weight);
    }
    for (Observation *observation : run.silent) {
        const double scaled = to_model_scale(run.system->quantity, observation->value);
        observation->shifts =
            mixture_at(to_line_scale(run.system->quantity, scaled), found, weights, run);
    }
    std::vector<double> others(weights.size());
    for (const RunReading &reading : run.features) {
        for (std::size_t i = 0; i < found.cells.size(); ++i) {
            const double ratio = listed_ratio(reading, found.cells[i], run, found.listed);
            others[i] = weights[i] / (found.share + (1.0 - found.share) * ratio);
        }
        reading.observation->shifts = mixture_at(reading.on_line, found, others, run);
    }
}

/// Whether some place explains the features better than chance, where chance could be told.
bool is_explained(const Found &found, const RunReadings &run,
                  std::span<const std::uint32_t> positions) {
    constexpr std::size_t fewest = 5;
    constexpr double expected_of_a_fit = 6.0; // logarithm of the evidence
    constexpr double better_than_chance = 1.1;
    if (run.features.size() < fewest || positions.empty()) {
        return true;
    }
    double gain = 0.0; // of one listed feature, expected
    for (const std::uint32_t position : positions) {
        const CandidateDensity &candidate = run.system->candidates[position];
        const double unlisted =
            std::exp(log_density(run.system->unlisted, run.system->quantity, candidate.mean, 0.0));
        gain += std::log(0.2 + 0.8 * found.listed.at(candidate.location) / unlisted) /
                static_cast<double>(positions.size());
    }
    return static_cast<double>(run.features.size()) * gain < expected_of_a_fit ||
           found.log_features > better_than_chance;
}

RegisteredSystem summary_of(const Found &found, const RunReadings &run, std::size_t system) {
    const Quantity quantity = run.system->quantity;
    const double scaled = from_line_scale(quantity, run.middle);
    RegisteredSystem summary;
    summary.system = system;
    summary.readings = run.count();
    summary.place = from_model_scale(quantity, scaled);
    const double units = 1.0 / scale_slope(quantity, summary.place);
    const double spread = run.spread * std::abs(model_per_line(quantity, run.middle));
    double mean = 0.0;
    double squares = 0.0;
    double likeliest = 0.0;
    double most = 0.0;
    std::vector<double> shifts;
    for (const RunCell &cell : found.cells) {
        const double shift =
            scaled - from_line_scale(quantity, cell.in_library(run.middle, run.prior));
        const double blur =
            blur_of(cell, run.middle - run.prior.centre) * model_per_line(quantity, run.middle);
        shifts.push_back(shift);
        mean += cell.weight * shift;
        squares += cell.weight * (shift * shift + blur * blur);
        summary.slope += cell.weight * cell.slope;
        summary.accident += cell.weight * cell.accident;
        if (cell.weight > most) {
            most = cell.weight;
            likeliest = shift;
        }
    }
    for (std::size_t i = 0; i < shifts.size(); ++i) {
        constexpr double apart = 3.0; // spreads
        if (std::abs(shifts[i] - likeliest) > apart * spread) {
            summary.second += found.cells[i].weight;
        }
    }
    summary.shift = mean * units;
    summary.uncertainty = std::sqrt(std::max(0.0, squares - mean * mean)) * units;
    return summary;
}

} // namespace

std::vector<RegisteredSystem> register_run(std::span<SampleFeature> features,
                                           const Knowledge &knowledge,
                                           std::span<const NearbyCandidates> nearby,
                                           const SamplePrior &prior) {
    std::vector<RegisteredSystem> registered;
    for (std::size_t s = 0; s < knowledge.systems.size(); ++s) {
        RunReadings run = readings_on(s, features, knowledge);
        if (candidate_count(*run.system) == 0) {
            continue;
        }
        if (run.count() == 0 && run.absurd >= kFewestAbsurd) {
            RegisteredSystem none;
            none.system = s;
            none.fits = false;
            registered.push_back(none);
        }
        if (run.count() < kFewestToRegister) {
            continue;
        }
        const auto positions = candidates_of(run, nearby[s]);
        measure(run, positions);
        const std::array<Observation, 1> any{{{s, 0.0, 0.0, {}, {}}}};
        const double total_weight = prior.feature.weight_of(listed_on(any, knowledge));
        const Found found = find(run, positions, prior, total_weight);
        tell(found, run);
        registered.push_back(summary_of(found, run, s));
        registered.back().fits = is_explained(found, run, positions);
    }
    return registered;
}

Stretch stretch_in_reach(const SystemModel &system, const Reach &reach,
                         const Observation &observation) {
    const double middle = to_model_scale(system.quantity, observation.value);
    const double width =
        reach.width(error_of(system.quantity, observation.value, observation.uncertainty),
                    farthest_shift(run_prior(system), system.quantity, observation.value));
    return {middle - width, middle + width};
}

} // namespace cospot::matcher
