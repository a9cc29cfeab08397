#pragma once

#include "evidence/library_evidence.h"
#include "library/database.h"

#include <cstdint>
#include <string>
#include <tuple>
#include <vector>

namespace cospot {

/// Beyond this the values of systems of one kind are not compared: it would keep the user waiting.
inline constexpr std::int64_t kMostRelatedValues = 60000;

/// What systems have in common whose values may be compared with each other: the technique, the
/// quantity, and what it is relative to (scale of an index, reference of a relative retention).
using SystemKind = std::tuple<Technique, Quantity, std::string>;
[[nodiscard]] SystemKind kind_of(const ModelledSystem &modelled);

struct RelatedSystems {
    std::vector<ModelledSystem> systems; ///< the larger ones first
    std::vector<std::string> notes;      ///< which kinds were left out
};

/// Systems of the library that may tell what a compound shows on the observed ones: of the same
/// kind, that is of the same technique with values of the same quantity (for retention indices on
/// the same scale), and not observed themselves. Whether they do tell is found from the values. A
/// kind whose systems hold more than `most_values` together is left out.
[[nodiscard]] RelatedSystems related_systems(library::Database &database,
                                             const std::vector<ModelledSystem> &observed,
                                             std::int64_t most_values = kMostRelatedValues);

/// Adds what the systems tell about compounds that were not measured on an observed system, as
/// candidates with the basis `transferred`, and how readings on several systems go together.
/// `related` are the models of `related_systems`, in their order. Returns a line for each system
/// that others tell about.
[[nodiscard]] std::vector<std::string>
transfer_between_systems(LibraryEvidence &evidence, const std::vector<ModelledSystem> &related,
                         const std::vector<matcher::SystemModel> &related_models);

} // namespace cospot
