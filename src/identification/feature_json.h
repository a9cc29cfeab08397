#pragma once

#include "document/json.h"
#include "identification/explanation_words.h"
#include "identification/identification.h"
#include "readers/feature.h"

#include <span>
#include <string>
#include <vector>

namespace cospot {

/// All that is said about one feature: sample, feature, observations, where it was read (plate, or
/// tR, area, height, start, end, width_half), candidates (rank, compound, inchikey, smiles,
/// probability, basis, expected, spread, deviation, because), standards of the run (compound,
/// place, system, distance, unit, probability, verdict, words), cospots (compound, lane,
/// spots, apart_mm, words), run (for each system: system, quantity,
/// shift of the run above the library in the unit of the quantity, uncertainty, slope, accident,
/// elsewhere: probability of another place, moved, fits), next, groups (compounds, probability,
/// more), unlisted, other, not_measured (probability and
/// number of compounds that the library holds elsewhere only; `other` has it too), set, warnings,
/// level, caution. Candidates stand group after group, the likeliest group first; one that no other
/// is like stands by itself and is not in `groups`; `more` counts members of the first group that
/// `--top` leaves out. Where a candidate was compared on several systems, expected, spread and
/// deviation are those of the system on which it fits worst; "systems" tells all.
[[nodiscard]] Json feature_json(const Feature &feature, const Identification &result,
                                const ExplanationWords &words, std::span<const RunPlace> places,
                                std::span<const std::string> notes);

/// The comparison with the largest deviation in units of its spread.
[[nodiscard]] const matcher::Comparison &
worst_comparison(const std::vector<matcher::Comparison> &comparisons);

} // namespace cospot
