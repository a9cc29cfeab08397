#pragma once

#include "library/compounds.h"
#include "library/descriptions.h"
#include "shared/quantity.h"

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::purity {

/// What a detector does not show, as src/purity/data/detectors.tsv has it, with the sources.
struct Detector {
    std::string name; ///< as --detector takes it
    std::vector<Technique> techniques;
    std::vector<std::string> with_all; ///< elements that a compound needs to be seen
    std::vector<std::string> with_any; ///< elements of which, or of `groups`, it needs one
    std::set<std::string> groups;      ///< functional groups
    std::vector<std::string> unseen;   ///< formulas that are hardly seen all the same
    std::string why;                   ///< of a compound that is hardly seen
    std::string blind;                 ///< said in any case
};

/// All detectors, in the order of the table.
[[nodiscard]] const std::vector<Detector> &detectors();

/// The detector of that name, or null.
[[nodiscard]] const Detector *find_detector(std::string_view name);

/// The names of those that a technique uses, e.g. "fid, tcd or ecd"; of all without one.
[[nodiscard]] std::string detector_names(std::optional<Technique> technique);

/// Why the detector hardly shows the compound; empty where it does, or where too little is known of
/// the compound.
[[nodiscard]] std::string why_hardly_seen(const Detector &detector,
                                          const library::Compound &compound,
                                          const std::optional<library::Description> &description);

} // namespace cospot::purity
