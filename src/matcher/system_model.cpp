#include "matcher/system_model.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <span>

namespace cospot::matcher {

namespace {

struct RunMean {
    double sum = 0.0;
    double squares = 0.0; // sum of squared deviations is squares - sum^2 / count
    double count = 0.0;

    void add(double x) {
        sum += x;
        squares += x * x;
        count += 1.0;
    }
    [[nodiscard]] double mean() const { return sum / count; }
    [[nodiscard]] double deviations() const { return std::max(0.0, squares - sum * sum / count); }
};

/// The values of one compound, gathered by run.
struct CompoundSummary {
    std::size_t compound = 0;
    std::vector<RunMean> runs;
    SampleVariance between;       // of the run means
    SampleVariance within;        // of replicates in one run, pooled
    double mean = 0.0;            // of the run means, model scale
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
                                 const RunEffects &effects) {
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
        runs[index].add(to_model_scale(quantity, known.value) - effects.shift_of(known));
    }
    return runs;
}

CompoundSummary summarise(Quantity quantity, std::span<const KnownValue> values,
                          const RunEffects &effects) {
    CompoundSummary summary;
    summary.compound = values.front().compound;
    summary.always = common_censoring(quantity, values);
    summary.runs = gather_runs(quantity, values, effects);
    RunMean means;
    double within_sum = 0.0;
    double inverse_counts = 0.0;
    for (const RunMean &run : summary.runs) {
        means.add(run.mean());
        within_sum += run.deviations();
        summary.within.freedom += run.count - 1;
        inverse_counts += 1.0 / run.count;
    }
    summary.mean = means.mean();
    summary.mean_replicates = means.count / inverse_counts;
    // A value that was always censored says nothing about the spread.
    const bool censored = summary.always != Censoring::none;
    summary.between.freedom = censored ? 0.0 : means.count - 1;
    summary.between.variance =
        summary.between.freedom > 0 ? means.deviations() / summary.between.freedom : 0.0;
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
    const auto runs = static_cast<double>(summary.runs.size());
    // The variance of run means holds only a share of that of single readings; a new observation
    // is one reading.
    const double single = model.within_run_variance * (1 - 1 / summary.mean_replicates);
    CandidateDensity density;
    density.compound = summary.compound;
    density.location = summary.mean;
    density.scale = std::sqrt(variance.variance * (1 + 1 / runs) + single);
    density.freedom = variance.freedom;
    density.log_constant = student_t_constant(density.freedom);
    density.mean = from_model_scale(model.quantity, summary.mean);
    density.mean_uncertainty =
        std::sqrt(variance.variance / runs) / scale_slope(model.quantity, density.mean);
    density.runs = summary.runs.size();
    density.always = summary.always;
    return density;
}

} // namespace

SystemModel fit_system(Quantity quantity, const std::vector<KnownValue> &values) {
    const RunEffects effects = fit_run_effects(quantity, values);
    std::vector<CompoundSummary> summaries;
    for (auto first = values.begin(); first != values.end();) {
        const auto last = std::find_if(first, values.end(), [&](const KnownValue &known) {
            return known.compound != first->compound;
        });
        summaries.push_back(summarise(quantity, {first, last}, effects));
        first = last;
    }
    SystemModel model;
    model.quantity = quantity;
    model.shift.variance = effects.variance;
    std::vector<SampleVariance> between;
    between.reserve(summaries.size());
    for (const CompoundSummary &summary : summaries) {
        between.push_back(summary.between);
    }
    model.spread = fit_spread(quantity, between);
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
