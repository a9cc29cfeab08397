#pragma once

#include "evidence/library_evidence.h"
#include "identification/known_compounds.h"
#include "identification/registered_run.h"
#include "model/matcher/standard_labels.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace cospot {

/// Where a standard stands: "lane 2", "spot 1" or "peak 3".
[[nodiscard]] std::string place_of(const RunStandard &standard);

/// What is said of one standard beside the library.
[[nodiscard]] std::string standard_words(const EvidenceStandard &standard,
                                         const matcher::SystemModel &model);

/// That readings of one standard lie too far apart to be of one compound.
[[nodiscard]] std::string contradiction_words(const EvidenceStandard &standard);

/// Which labels seem wrong, and what they would be. `standards` are those that were checked.
[[nodiscard]] std::string label_words(const matcher::LabelCheck &labels,
                                      std::span<const EvidenceStandard *const> standards,
                                      const matcher::SystemModel &model, KnownCompounds &compounds);

[[nodiscard]] std::string assumed_within_run_words(const matcher::StandardInRun &standard,
                                                   const matcher::SystemModel &model);

/// Where a run lies against the library, and what usually causes it where that is far.
[[nodiscard]] std::vector<std::string> place_words(const RunPlace &place, Technique technique);

/// The compound that would tell where a run lies that may lie in several places; none where it is
/// told already.
[[nodiscard]] std::optional<std::size_t> standard_to_run(const matcher::RegisteredSystem &found,
                                                         const matcher::SystemModel &model);
[[nodiscard]] std::string standard_to_run_words(const RunPlace &place, const std::string &compound);

} // namespace cospot
