#pragma once

#include "quantities/element_counts.h"
#include "readers/further_evidence_columns.h"

#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

namespace cospot {

/// Share of formulas and molar masses from another technique that are wrong or of another compound
/// (common practice, no source). Such a one says of every compound what a chance one would.
inline constexpr double kOtherTechniqueErrs = 0.01;

/// Standard uncertainty of a molar mass that states none, g/mol: a nominal mass.
inline constexpr double kMolarMassUncertainty = 0.5;

/// Above this uncertainty, g/mol, a mass may be the average one as well as the monoisotopic one.
inline constexpr double kTellsIsotopesApart = 0.3;

/// What is known of a compound that further evidence bears on.
struct CompoundTraits {
    std::optional<std::set<std::string>> groups; ///< in the terms of stains.tsv
    std::optional<double> monoisotopic_mass;     ///< Da
    std::optional<double> average_mass;          ///< g/mol, known where the other is
    std::optional<ElementCounts> elements;
};

/// How much better each compound explains the evidence than an unlisted one does.
struct FurtherRatios {
    std::vector<double> log_ratios; ///< natural, one a compound; empty where there is no evidence
    std::vector<std::string> warnings;
};

/// Log-likelihood ratios of the compounds against `unlisted`, natural logarithms. An unlisted
/// compound is taken to show what a compound drawn from those whose traits are known would, with
/// half a count each way: so evidence that fits most of them moves little, and kinds that mostly go
/// together (phenols absorb at 254 nm) do not count in full one after the other. Given the compound
/// the kinds are independent; a molar mass beside a formula does not count, as the two are mostly
/// one measurement. Evidence does not count for a compound whose trait is not known, and a warning
/// says so.
[[nodiscard]] FurtherRatios further_ratios(const FurtherEvidence &evidence,
                                           std::span<const CompoundTraits> compounds);

} // namespace cospot
