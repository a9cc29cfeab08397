#include "evidence/further_evidence.h"

#include "quantities/stains.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

/// What the half count each way takes the likelihood of a compound outside the library to be.
constexpr double kPseudoLikelihood = 0.5;

/// How likely each compound is to show what was seen, empty where its trait is not known. A common
/// factor does not matter.
using Likelihoods = std::vector<std::optional<double>>;

struct Judged {
    std::string what; ///< for a warning
    std::string not_known;
    Likelihoods likelihoods;
    double error_rate = 0.0; ///< share of observations that tell of a chance compound
};

constexpr const char *kNotDescribed =
    "the library holds no description of them (the next learn describes those that it holds)";
constexpr const char *kNoMass = "salts and solvates, or structures that the library does not hold";

Judged judge_visibility(const Stain &stain, bool seen, std::span<const CompoundTraits> compounds) {
    Judged judged{stain.name, kNotDescribed, {}, 0.0};
    for (const CompoundTraits &compound : compounds) {
        std::optional<double> likelihood;
        if (compound.groups) {
            const double is_seen = seen_probability(stain, *compound.groups);
            likelihood = seen ? is_seen : 1.0 - is_seen;
        }
        judged.likelihoods.push_back(likelihood);
    }
    return judged;
}

Judged judge_mass(double mass, double uncertainty, std::span<const CompoundTraits> compounds) {
    Judged judged{"molar_mass", kNoMass, {}, kOtherTechniqueErrs};
    for (const CompoundTraits &compound : compounds) {
        std::optional<double> likelihood;
        if (compound.monoisotopic_mass && compound.average_mass) {
            double distance = std::abs(mass - *compound.monoisotopic_mass);
            if (uncertainty > kTellsIsotopesApart) {
                distance = std::min(distance, std::abs(mass - *compound.average_mass));
            }
            const double deviation = distance / uncertainty;
            likelihood = std::exp(-deviation * deviation / 2);
        }
        judged.likelihoods.push_back(likelihood);
    }
    return judged;
}

Judged judge_formula(const std::string &formula, std::span<const CompoundTraits> compounds) {
    const std::optional<ElementCounts> elements = element_counts(formula);
    Judged judged{"formula", kNoMass, {}, kOtherTechniqueErrs};
    for (const CompoundTraits &compound : compounds) {
        judged.likelihoods.push_back(compound.elements
                                         ? std::optional(compound.elements == elements ? 1.0 : 0.0)
                                         : std::nullopt);
    }
    return judged;
}

std::vector<Judged> judge(const FurtherEvidence &evidence,
                          std::span<const CompoundTraits> compounds) {
    std::vector<Judged> all;
    if (evidence.uv254) {
        all.push_back(judge_visibility(uv254(), *evidence.uv254, compounds));
    }
    for (const StainTest &test : evidence.stains) {
        all.push_back(judge_visibility(*find_stain(test.stain), test.stained, compounds));
    }
    if (!evidence.formula.empty()) {
        all.push_back(judge_formula(evidence.formula, compounds));
    } else if (evidence.molar_mass) {
        all.push_back(judge_mass(*evidence.molar_mass,
                                 evidence.molar_mass_uncertainty.value_or(kMolarMassUncertainty),
                                 compounds));
    }
    return all;
}

/// What an unlisted compound would show of one kind of evidence: the compounds' mean, with half a
/// count each way.
double unlisted_likelihood(const Likelihoods &likelihoods) {
    double sum = kPseudoLikelihood;
    double count = 1.0;
    for (const std::optional<double> &likelihood : likelihoods) {
        sum += likelihood.value_or(0.0);
        count += likelihood ? 1.0 : 0.0;
    }
    return sum / count;
}

double ratio_of(double likelihood, double unlisted, double error_rate) {
    return error_rate + (1 - error_rate) * likelihood / unlisted;
}

/// The product over the kinds of evidence of how likely a compound is to show it, each divided by
/// `unlisted`; a kind whose trait is not known leaves it as it is. Nothing where no trait is known.
std::optional<double> product_of_ratios(std::size_t compound, const std::vector<Judged> &all,
                                        const std::vector<double> &unlisted) {
    double product = 1.0;
    bool is_known = false;
    for (std::size_t kind = 0; kind < all.size(); ++kind) {
        if (const auto likelihood = all[kind].likelihoods[compound]) {
            product *= ratio_of(*likelihood, unlisted[kind], all[kind].error_rate);
            is_known = true;
        }
    }
    return is_known ? std::optional(product) : std::nullopt;
}

std::vector<double> log_ratios_of(const std::vector<Judged> &all, std::size_t compounds) {
    std::vector<double> unlisted;
    double joint = 1.0; // what the half counts add
    for (const Judged &judged : all) {
        unlisted.push_back(unlisted_likelihood(judged.likelihoods));
        joint *= ratio_of(kPseudoLikelihood, unlisted.back(), judged.error_rate);
    }
    std::vector<std::optional<double>> products;
    double count = 1.0;
    for (std::size_t i = 0; i < compounds; ++i) {
        products.push_back(product_of_ratios(i, all, unlisted));
        joint += products.back().value_or(0.0);
        count += products.back() ? 1.0 : 0.0;
    }
    std::vector<double> ratios;
    ratios.reserve(compounds);
    for (const std::optional<double> &product : products) {
        ratios.push_back(product ? std::log(*product * count / joint) : 0.0);
    }
    return ratios;
}

} // namespace

FurtherRatios further_ratios(const FurtherEvidence &evidence,
                             std::span<const CompoundTraits> compounds) {
    FurtherRatios result;
    if (is_empty(evidence)) {
        return result;
    }
    if (evidence.molar_mass && !evidence.formula.empty()) {
        result.warnings.emplace_back(
            "molar_mass does not count beside formula: the two are mostly one measurement");
    }
    const std::vector<Judged> all = judge(evidence, compounds);
    result.log_ratios = log_ratios_of(all, compounds.size());
    for (const Judged &judged : all) {
        const auto not_known =
            std::count(judged.likelihoods.begin(), judged.likelihoods.end(), std::nullopt);
        if (not_known > 0) {
            result.warnings.push_back(fmt::format("{} does not count for {} of {} compounds: {}",
                                                  judged.what, not_known, compounds.size(),
                                                  judged.not_known));
        }
    }
    return result;
}

} // namespace cospot
