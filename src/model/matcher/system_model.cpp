#include "model/matcher/system_model.h"

#include "shared/robust.h"
#include "shared/student_t.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <span>
#include <utility>

namespace cospot::matcher {

namespace {

/// Values of a compound are said to disagree from this probability of a blunder on.
constexpr double kDisagrees = 0.8;

/// The values of one compound in one run; a value of variance v beyond the scatter weighs
/// 1 / (within + v), within being what readings of one run are assumed to scatter by.
struct RunMean {
    double count = 0.0;
    double plain = 0.0;   // sums of values,
    double squares = 0.0; // the sum of squared deviations being squares - plain^2 / count,
    double weight = 0.0;  // of weights,
    double sum = 0.0;     // of values by their weights,
    double stated = 0.0;  // and of stated variances by the squares of their weights

    void add(double x, double stated_variance, double within) {
        const double w = within / (within + stated_variance);
        count += 1.0;
        plain += x;
        squares += x * x;
        weight += w;
        sum += w * x;
        stated += w * w * stated_variance;
    }
    [[nodiscard]] double mean() const { return sum / weight; }
    [[nodiscard]] double deviations() const {
        return std::max(0.0, squares - plain * plain / count);
    }
    [[nodiscard]] double stated_variance() const { return stated / (weight * weight); }
};

/// A mean over runs, each of which has the variance between runs and what it states itself.
struct WeightedMean {
    double mean = 0.0;
    double variance = 0.0; // of the mean
    double scatter = 0.0;  // squared deviations, the most certain run counting fully
};

WeightedMean mean_over(const std::vector<RunMean> &runs, double between) {
    double least = std::numeric_limits<double>::infinity();
    for (const RunMean &run : runs) {
        least = std::min(least, between + run.stated_variance());
    }
    const auto weight_of = [&](const RunMean &run) {
        return least / (between + run.stated_variance());
    };
    double total = 0.0;
    WeightedMean result;
    for (const RunMean &run : runs) {
        total += weight_of(run);
        result.mean += weight_of(run) * run.mean();
    }
    result.mean /= total;
    result.variance = least / total;
    for (const RunMean &run : runs) {
        const double deviation = run.mean() - result.mean;
        result.scatter += weight_of(run) * deviation * deviation;
    }
    return result;
}

/// The values of one compound, gathered by run.
struct CompoundSummary {
    std::size_t compound = 0;
    std::vector<RunMean> runs;
    SampleVariance between;       // of the run means
    SampleVariance within;        // of replicates in one run, pooled
    double mean_replicates = 1.0; // in a run, harmonic mean
    Censoring always = Censoring::none;
};

Censoring common_censoring(Quantity quantity, std::span<const KnownValue> values) {
    const Censoring first = censoring(quantity, values.front().value);
    const bool same = std::all_of(values.begin(), values.end(), [&](const KnownValue &known) {
        return censoring(quantity, known.value) == first;
    });
    return same ? first : Censoring::none;
}

std::vector<RunMean> gather_runs(Quantity quantity, std::span<const KnownValue> values,
                                 const RunEffects &effects, double assumed) {
    const double within = kShareWithinRun * kShareWithinRun * assumed * assumed;
    std::vector<RunMean> runs;
    std::map<std::int64_t, std::size_t> index_of_run;
    for (const KnownValue &known : values) {
        std::size_t index = runs.size();
        if (known.run_is_named) {
            index = index_of_run.try_emplace(known.run, index).first->second;
        }
        if (index == runs.size()) {
            runs.emplace_back();
        }
        const double stated = known.uncertainty * scale_slope(quantity, known.value);
        runs[index].add(to_model_scale(quantity, known.value) - effects.shift_of(known),
                        stated * stated, within);
    }
    return runs;
}

CompoundSummary summarise(Quantity quantity, std::span<const KnownValue> values,
                          const RunEffects &effects, double assumed) {
    CompoundSummary summary;
    summary.compound = values.front().compound;
    summary.always = common_censoring(quantity, values);
    summary.runs = gather_runs(quantity, values, effects, assumed);
    double within_sum = 0.0;
    double inverse_counts = 0.0;
    for (const RunMean &run : summary.runs) {
        within_sum += run.deviations();
        summary.within.freedom += run.count - 1;
        inverse_counts += 1.0 / run.count;
    }
    const auto runs = static_cast<double>(summary.runs.size());
    summary.mean_replicates = runs / inverse_counts;
    // A value that was always censored says nothing about the spread.
    const bool censored = summary.always != Censoring::none;
    summary.between.freedom = censored ? 0.0 : runs - 1;
    summary.between.variance =
        summary.between.freedom > 0
            ? mean_over(summary.runs, assumed * assumed).scatter / summary.between.freedom
            : 0.0;
    summary.within.freedom = censored ? 0.0 : summary.within.freedom;
    summary.within.variance =
        summary.within.freedom > 0 ? within_sum / summary.within.freedom : 0.0;
    return summary;
}

double pooled_variance(const std::vector<CompoundSummary> &summaries) {
    double sum = 0.0;
    double freedom = 0.0;
    for (const CompoundSummary &summary : summaries) {
        sum += summary.within.variance * summary.within.freedom;
        freedom += summary.within.freedom;
    }
    return freedom > 0.0 ? sum / freedom : 0.0;
}

CandidateDensity expected_density(const SystemModel &model, const CompoundSummary &summary) {
    const SampleVariance variance = posterior_variance(model.spread, summary.between);
    const WeightedMean over_runs = mean_over(summary.runs, variance.variance);
    // The variance of run means holds only a share of that of single readings; a new observation
    // is one reading.
    const double single = model.within_run_variance * (1 - 1 / summary.mean_replicates);
    CandidateDensity density;
    density.compound = summary.compound;
    density.location = over_runs.mean;
    density.scale = std::sqrt(variance.variance + over_runs.variance + single);
    density.freedom = variance.freedom;
    density.log_constant = student_t_constant(density.freedom);
    density.mean = from_model_scale(model.quantity, density.location);
    density.mean_uncertainty =
        std::sqrt(over_runs.variance) / scale_slope(model.quantity, density.mean);
    density.runs = summary.runs.size();
    density.always = summary.always;
    density.disagrees = blunder_probability(model.spread, summary.between) > kDisagrees;
    return density;
}

/// The spread that is assumed on a system. Of times it depends on how long runs take: to the time
/// that nine tenths of the values do not pass, so that no mistyped one counts.
double assumed_spread_of(Technique technique, Quantity quantity,
                         const std::vector<KnownValue> &values) {
    if (quantity != Quantity::tR || values.empty()) {
        return assumed_spread(technique, quantity);
    }
    std::vector<double> times;
    times.reserve(values.size());
    for (const KnownValue &known : values) {
        times.push_back(known.value);
    }
    return assumed_spread(technique, quantity, upper_decile(std::move(times)));
}

std::optional<double> newest_year(const std::vector<KnownValue> &values) {
    std::optional<double> newest;
    for (const KnownValue &known : values) {
        if (known.year) {
            newest = std::max(newest.value_or(*known.year), *known.year);
        }
    }
    return newest;
}

} // namespace

SystemModel fit_system(Technique technique, Quantity quantity,
                       const std::vector<KnownValue> &values) {
    const RunEffects effects = fit_run_effects(quantity, values);
    const double assumed = assumed_spread_of(technique, quantity, values);
    std::vector<CompoundSummary> summaries;
    for (auto first = values.begin(); first != values.end();) {
        const auto last = std::find_if(first, values.end(), [&](const KnownValue &known) {
            return known.compound != first->compound;
        });
        summaries.push_back(summarise(quantity, {first, last}, effects, assumed));
        first = last;
    }
    SystemModel model;
    model.quantity = quantity;
    model.technique = technique;
    model.newest_year = newest_year(values);
    model.shift.variance = effects.variance;
    std::vector<SampleVariance> between;
    between.reserve(summaries.size());
    for (const CompoundSummary &summary : summaries) {
        between.push_back(summary.between);
    }
    model.spread = fit_spread(assumed, between);
    model.within_run_variance = pooled_variance(summaries);
    model.candidates.reserve(summaries.size());
    for (const CompoundSummary &summary : summaries) {
        model.candidates.push_back(expected_density(model, summary));
    }
    std::sort(model.candidates.begin(), model.candidates.end(),
              [](const auto &a, const auto &b) { return a.compound < b.compound; });
    model.by_location = ordered_by_location(model);
    model.run_counts = fit_run_counts(model.candidates, values);
    model.unlisted = fit_unlisted(quantity, model.candidates, std::sqrt(model.spread.variance));
    return model;
}

std::vector<std::uint32_t> ordered_by_location(const SystemModel &model) {
    std::vector<std::uint32_t> order(model.candidates.size());
    std::iota(order.begin(), order.end(), 0U);
    std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
        return model.candidates[a].location < model.candidates[b].location;
    });
    return order;
}

const CandidateDensity *find_candidate(const SystemModel &model, std::size_t compound) {
    const auto found = std::lower_bound(model.candidates.begin(), model.candidates.end(), compound,
                                        [](const CandidateDensity &candidate, std::size_t wanted) {
                                            return candidate.compound < wanted;
                                        });
    return found != model.candidates.end() && found->compound == compound ? &*found : nullptr;
}

} // namespace cospot::matcher
