#include "evidence/fit_bytes.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numeric>
#include <utility>
#include <vector>

namespace cospot {

namespace {

/// All of a model but its lists. No padding: equal models have equal bytes.
struct Head {
    std::uint64_t order_of_bytes;
    std::uint64_t candidates;
    std::uint64_t centres;
    std::uint64_t technique;
    matcher::SpreadPrior spread;
    matcher::RunShift shift;
    matcher::Reach reach;
    double within_run_variance;
    double newest_year; // not above 0: no value is dated
    matcher::RunCounts run_counts;
    double bandwidth;
    double low;
    double high;
    double at_start;
    double at_front;
};
static_assert(sizeof(Head) == 4 * sizeof(std::uint64_t) + 17 * sizeof(double));

struct KeptCandidate {
    std::uint64_t compound;
    double location;
    double scale;
    double freedom;
    double log_constant;
    double mean;
    double mean_uncertainty;
    std::uint32_t runs;
    std::uint16_t always;
    std::uint16_t disagrees;
};
static_assert(sizeof(KeptCandidate) == 64);

Head head_of(const matcher::SystemModel &model) {
    const matcher::UnlistedDensity &unlisted = model.unlisted;
    return {kOrderOfBytes,
            model.candidates.size(),
            unlisted.centres.size(),
            static_cast<std::uint64_t>(model.technique),
            model.spread,
            model.shift,
            matcher::NearbyCandidates(model).reach(),
            model.within_run_variance,
            model.newest_year.value_or(0.0),
            model.run_counts,
            unlisted.bandwidth,
            unlisted.low,
            unlisted.high,
            unlisted.at_start,
            unlisted.at_front};
}

std::size_t parts_of(std::size_t candidates) {
    return (candidates + kCandidatesInPart - 1) / kCandidatesInPart;
}

/// The head, if the bytes are in our order and as many as it says.
std::optional<Head> checked_head(std::string_view &bytes) {
    if (bytes.size() < sizeof(Head)) {
        return std::nullopt;
    }
    const std::size_t rest = bytes.size() - sizeof(Head);
    const Head head = take<Head>(bytes);
    const bool is_ours =
        head.order_of_bytes == kOrderOfBytes && head.candidates <= kCandidatesInPart * rest &&
        head.centres <= rest &&
        rest == parts_of(head.candidates) * (sizeof(double) + sizeof(Fingerprint)) +
                    2 * head.centres * sizeof(double);
    return is_ours ? std::optional(head) : std::nullopt;
}

bool are_finite(const std::vector<double> &numbers) {
    return std::all_of(numbers.begin(), numbers.end(),
                       [](double number) { return std::isfinite(number); });
}

/// Finite numbers, each at least as large as the one before.
bool are_ascending(const std::vector<double> &numbers) {
    return are_finite(numbers) && std::is_sorted(numbers.begin(), numbers.end());
}

/// Whether the numbers are such as a fit can give: the library may be damaged.
bool is_sound(const Head &head) {
    const std::vector not_negative{head.spread.variance,
                                   head.spread.freedom,
                                   head.spread.observed_freedom,
                                   head.spread.assumed,
                                   head.shift.variance,
                                   head.reach.farthest,
                                   head.reach.widest,
                                   head.within_run_variance,
                                   head.newest_year,
                                   head.run_counts.added_runs,
                                   head.run_counts.mean_root,
                                   head.bandwidth,
                                   head.at_start,
                                   head.at_front};
    return are_finite(not_negative) &&
           *std::min_element(not_negative.begin(), not_negative.end()) >= 0.0 &&
           head.technique <= static_cast<std::uint64_t>(Technique::gc) &&
           head.run_counts.mean_root > 0.0 && std::isfinite(head.shift.mean) &&
           are_ascending({head.low, head.high});
}

/// The same of candidates, each compound once.
bool is_sound(Quantity quantity, const std::vector<matcher::CandidateDensity> &candidates) {
    constexpr double least_freedom = 1.0;
    const auto can_be = [&](const matcher::CandidateDensity &one) {
        return one.freedom >= least_freedom && one.scale > 0.0 &&
               std::isfinite(one.freedom + one.scale + one.log_constant + one.mean) &&
               std::isfinite(one.mean_uncertainty) && one.always <= matcher::Censoring::at_front &&
               (quantity == Quantity::Rf || one.always == matcher::Censoring::none);
    };
    const auto is_misplaced = [](const auto &a, const auto &b) { return a.compound >= b.compound; };
    return std::all_of(candidates.begin(), candidates.end(), can_be) &&
           std::adjacent_find(candidates.begin(), candidates.end(), is_misplaced) ==
               candidates.end();
}

KeptCandidate kept(const matcher::CandidateDensity &one) {
    return {one.compound,
            one.location,
            one.scale,
            one.freedom,
            one.log_constant,
            one.mean,
            one.mean_uncertainty,
            static_cast<std::uint32_t>(one.runs),
            static_cast<std::uint16_t>(one.always),
            static_cast<std::uint16_t>(one.disagrees)};
}

matcher::CandidateDensity density_of(const KeptCandidate &kept) {
    matcher::CandidateDensity density;
    density.compound = kept.compound;
    density.location = kept.location;
    density.scale = kept.scale;
    density.freedom = kept.freedom;
    density.log_constant = kept.log_constant;
    density.mean = kept.mean;
    density.mean_uncertainty = kept.mean_uncertainty;
    density.runs = kept.runs;
    density.always = static_cast<matcher::Censoring>(kept.always);
    density.disagrees = kept.disagrees != 0;
    return density;
}

} // namespace

FitBytes to_bytes(const matcher::SystemModel &model) {
    FitBytes bytes;
    std::vector<double> starts;
    for (std::size_t i = 0; i < model.by_location.size(); ++i) {
        const KeptCandidate candidate = kept(model.candidates[model.by_location[i]]);
        if (i % kCandidatesInPart == 0) {
            starts.push_back(candidate.location);
            bytes.parts.emplace_back();
        }
        put(bytes.parts.back(), &candidate, 1);
    }
    const Head head = head_of(model);
    std::string rest;
    put(rest, &head, 1);
    put(rest, starts.data(), starts.size());
    for (const std::string &part : bytes.parts) {
        const Fingerprint fingerprint = fingerprint_of(part);
        put(rest, &fingerprint, 1);
    }
    put(rest, model.unlisted.centres.data(), model.unlisted.centres.size());
    put(rest, model.unlisted.weights.data(), model.unlisted.weights.size());
    const Fingerprint fingerprint = fingerprint_of(rest);
    put(bytes.summary, &fingerprint, 1);
    bytes.summary += rest;
    return bytes;
}

std::optional<FitSummary> summary_from_bytes(Quantity quantity, std::string_view bytes) {
    if (bytes.size() < sizeof(Fingerprint)) {
        return std::nullopt;
    }
    const auto fingerprint = take<Fingerprint>(bytes);
    if (fingerprint != fingerprint_of(bytes)) {
        return std::nullopt;
    }
    const auto head = checked_head(bytes);
    if (!head || !is_sound(*head)) {
        return std::nullopt;
    }
    FitSummary summary;
    summary.reach = head->reach;
    summary.candidates = head->candidates;
    summary.starts = take_several<double>(bytes, parts_of(head->candidates));
    summary.fingerprints = take_several<Fingerprint>(bytes, parts_of(head->candidates));
    matcher::SystemModel &model = summary.model;
    model.quantity = quantity;
    model.spread = head->spread;
    model.shift = head->shift;
    model.within_run_variance = head->within_run_variance;
    model.technique = static_cast<Technique>(head->technique);
    if (head->newest_year > 0.0) {
        model.newest_year = head->newest_year;
    }
    model.run_counts = head->run_counts;
    matcher::UnlistedDensity &unlisted = model.unlisted;
    unlisted.centres = take_several<double>(bytes, head->centres);
    unlisted.weights = take_several<double>(bytes, head->centres);
    unlisted.bandwidth = head->bandwidth;
    unlisted.low = head->low;
    unlisted.high = head->high;
    unlisted.at_start = head->at_start;
    unlisted.at_front = head->at_front;
    const bool is_sound = are_ascending(summary.starts) && are_ascending(unlisted.centres) &&
                          are_finite(unlisted.weights);
    return is_sound ? std::optional(std::move(summary)) : std::nullopt;
}

bool take_part(const FitSummary &summary, std::size_t number, std::string_view part,
               std::vector<matcher::CandidateDensity> &candidates) {
    if (number >= summary.fingerprints.size() ||
        fingerprint_of(part) != summary.fingerprints[number]) {
        return false;
    }
    while (part.size() >= sizeof(KeptCandidate)) {
        candidates.push_back(density_of(take<KeptCandidate>(part)));
    }
    return true;
}

std::optional<matcher::SystemModel>
model_from(FitSummary summary, const std::vector<matcher::CandidateDensity> &candidates) {
    matcher::SystemModel &model = summary.model;
    std::vector<std::uint32_t> by_compound(candidates.size());
    std::iota(by_compound.begin(), by_compound.end(), 0U);
    std::sort(by_compound.begin(), by_compound.end(), [&](std::uint32_t a, std::uint32_t b) {
        return candidates[a].compound < candidates[b].compound;
    });
    model.candidates.reserve(candidates.size());
    model.by_location.resize(candidates.size());
    for (const std::uint32_t i : by_compound) {
        model.by_location[i] = static_cast<std::uint32_t>(model.candidates.size());
        model.candidates.push_back(candidates[i]);
    }
    model.out_of_reach = summary.candidates - candidates.size();
    std::vector<double> locations;
    locations.reserve(candidates.size());
    for (const matcher::CandidateDensity &candidate : candidates) {
        locations.push_back(candidate.location);
    }
    return are_ascending(locations) && is_sound(model.quantity, model.candidates)
               ? std::optional(std::move(model))
               : std::nullopt;
}

} // namespace cospot
