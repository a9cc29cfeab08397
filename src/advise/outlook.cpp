#include "advise/outlook.h"

#include "shared/student_t.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>
#include <tuple>

namespace cospot {

namespace {

using matcher::CandidateDensity;
using matcher::SystemModel;

constexpr int kOutcomes = 11; ///< equally likely ones of a hypothesis

/// Standard uncertainty of one more reading, in the unit of the quantity (common practice, no
/// source).
double reading_error(Quantity quantity, double value) {
    switch (quantity) {
    case Quantity::Rf:
        return 0.01;
    case Quantity::k:
    case Quantity::RRT:
    case Quantity::r:
        return 0.01 * value;
    case Quantity::RI:
        return 0.5;
    case Quantity::tR:
        return 0.01;
    }
    return 0.0;
}

/// From the model scale, within what the quantity can be.
double observed(Quantity quantity, double scaled) {
    if (quantity == Quantity::Rf) {
        return matcher::from_model_scale(quantity, std::clamp(scaled, 0.0, std::numbers::pi / 2.0));
    }
    return matcher::from_model_scale(quantity, scaled);
}

double middle_quantile(int i) {
    return (i + 0.5) / kOutcomes;
}

Forecast forecast_of(const SystemModel &model, const CandidateDensity &candidate) {
    Forecast forecast;
    forecast.log_density = [&model, &candidate](double value) {
        return matcher::log_density(candidate, model.quantity, value,
                                    reading_error(model.quantity, value), model.shift);
    };
    if (candidate.always != matcher::Censoring::none) {
        forecast.outcomes = {candidate.always == matcher::Censoring::at_start ? 0.0 : 1.0};
        return forecast;
    }
    const double error = reading_error(model.quantity, candidate.mean);
    const double spread = matcher::spread_in_units(candidate, model.quantity, error, model.shift) *
                          matcher::scale_slope(model.quantity, candidate.mean);
    for (int i = 0; i < kOutcomes; ++i) {
        forecast.outcomes.push_back(observed(
            model.quantity, candidate.location + spread * student_t_quantile(candidate.freedom,
                                                                             middle_quantile(i))));
    }
    return forecast;
}

/// Positions on the model scale where unlisted compounds are to be expected, equally likely ones.
std::vector<double> unlisted_positions(const SystemModel &model) {
    const auto &[centres, weights] = std::tie(model.unlisted.centres, model.unlisted.weights);
    const double total = std::accumulate(weights.begin(), weights.end(), 0.0);
    std::vector<double> positions;
    double passed = 0.0;
    for (std::size_t i = 0; i < centres.size(); ++i) {
        passed += weights[i];
        while (std::ssize(positions) < kOutcomes &&
               middle_quantile(static_cast<int>(positions.size())) * total <= passed) {
            positions.push_back(centres[i]);
        }
    }
    return positions;
}

Forecast unlisted_forecast(const SystemModel &model) {
    Forecast forecast;
    for (const double position : unlisted_positions(model)) {
        forecast.outcomes.push_back(observed(model.quantity, position));
    }
    forecast.log_density = [&model](double value) {
        return matcher::log_density(model.unlisted, model.quantity, value,
                                    reading_error(model.quantity, value));
    };
    return forecast;
}

const CandidateDensity *density_of(const SystemModel &model,
                                   const std::optional<library::CompoundId> &compound) {
    return compound ? matcher::find_candidate(model, static_cast<std::size_t>(*compound)) : nullptr;
}

/// The difference between a feature and a standard where the feature is a certain compound.
Forecast difference_forecast(double mean, double variance) {
    Forecast forecast;
    const double deviation = std::sqrt(variance);
    forecast.log_density = [mean, deviation](double difference) {
        const double standardised = (difference - mean) / deviation;
        return -0.5 * standardised * standardised - std::log(deviation) -
               0.5 * std::log(2.0 * std::numbers::pi);
    };
    constexpr double kNearlyNormal = 1000.0;
    for (int i = 0; i < kOutcomes; ++i) {
        forecast.outcomes.push_back(
            mean + deviation * student_t_quantile(kNearlyNormal, middle_quantile(i)));
    }
    return forecast;
}

Forecast unlisted_difference(const SystemModel &model, double standard) {
    Forecast forecast;
    for (const double position : unlisted_positions(model)) {
        forecast.outcomes.push_back(position - standard);
    }
    forecast.log_density = [&model, standard](double difference) {
        const double value = observed(model.quantity, standard + difference);
        return matcher::log_density(model.unlisted, model.quantity, value,
                                    reading_error(model.quantity, value));
    };
    return forecast;
}

double mean_variance(const SystemModel &model, const CandidateDensity &candidate) {
    return std::pow(
        candidate.mean_uncertainty * matcher::scale_slope(model.quantity, candidate.mean), 2);
}

} // namespace

Outlook outlook_on(const SystemModel &model,
                   std::span<const std::optional<library::CompoundId>> compounds) {
    Outlook outlook;
    for (const auto &compound : compounds) {
        const CandidateDensity *density = density_of(model, compound);
        outlook.known += density != nullptr ? 1 : 0;
        outlook.forecasts.push_back(density != nullptr ? forecast_of(model, *density)
                                                       : unlisted_forecast(model));
    }
    outlook.forecasts.push_back(unlisted_forecast(model));
    return outlook;
}

std::optional<Outlook> outlook_beside(const SystemModel &model,
                                      std::span<const std::optional<library::CompoundId>> compounds,
                                      std::size_t standard) {
    const CandidateDensity *beside = density_of(model, compounds[standard]);
    if (beside == nullptr || beside->always != matcher::Censoring::none) {
        return std::nullopt;
    }
    const double reading = std::pow(reading_error(model.quantity, beside->mean) *
                                        matcher::scale_slope(model.quantity, beside->mean),
                                    2);
    const double both_readings = 2.0 * (model.within_run_variance + reading);
    Outlook outlook;
    for (std::size_t i = 0; i < compounds.size(); ++i) {
        const CandidateDensity *density = density_of(model, compounds[i]);
        if (density == nullptr || density->always != matcher::Censoring::none) {
            outlook.forecasts.push_back(unlisted_difference(model, beside->location));
            continue;
        }
        ++outlook.known;
        const double means =
            i == standard ? 0.0 : mean_variance(model, *density) + mean_variance(model, *beside);
        outlook.forecasts.push_back(
            difference_forecast(density->location - beside->location, both_readings + means));
    }
    outlook.forecasts.push_back(unlisted_difference(model, beside->location));
    return outlook;
}

std::vector<std::vector<double>> stain_likelihoods(const Stain &stain,
                                                   std::span<const CompoundTraits> candidates,
                                                   std::span<const CompoundTraits> library) {
    double sum = 0.5;
    double count = 1.0;
    for (const CompoundTraits &traits : library) {
        if (traits.groups) {
            sum += seen_probability(stain, *traits.groups);
            count += 1.0;
        }
    }
    const double anybody = sum / count;
    std::vector<std::vector<double>> likelihoods;
    for (const CompoundTraits &traits : candidates) {
        const double seen = traits.groups ? seen_probability(stain, *traits.groups) : anybody;
        likelihoods.push_back({seen, 1.0 - seen});
    }
    likelihoods.push_back({anybody, 1.0 - anybody});
    return likelihoods;
}

std::vector<std::vector<double>> mass_likelihoods(std::span<const CompoundTraits> candidates,
                                                  std::span<const CompoundTraits> library) {
    std::map<long, std::size_t> outcome_of; // nominal mass
    for (const CompoundTraits &traits : candidates) {
        if (traits.monoisotopic_mass) {
            outcome_of.try_emplace(std::lround(*traits.monoisotopic_mass), outcome_of.size());
        }
    }
    // What a compound drawn from the library would show; the last outcome is any other mass.
    std::vector<double> anybody(outcome_of.size() + 1, 0.0);
    double count = 1.0;
    anybody.back() = 1.0;
    for (const CompoundTraits &traits : library) {
        if (traits.monoisotopic_mass) {
            const auto found = outcome_of.find(std::lround(*traits.monoisotopic_mass));
            anybody[found == outcome_of.end() ? anybody.size() - 1 : found->second] += 1.0;
            count += 1.0;
        }
    }
    for (double &share : anybody) {
        share /= count;
    }
    std::vector<std::vector<double>> likelihoods;
    for (const CompoundTraits &traits : candidates) {
        std::vector<double> own = anybody;
        if (traits.monoisotopic_mass) {
            for (double &share : own) {
                share *= kOtherTechniqueErrs;
            }
            own[outcome_of.at(std::lround(*traits.monoisotopic_mass))] += 1.0 - kOtherTechniqueErrs;
        }
        likelihoods.push_back(std::move(own));
    }
    likelihoods.push_back(std::move(anybody));
    return likelihoods;
}

} // namespace cospot
