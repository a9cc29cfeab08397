#pragma once

#include "expectation/retention_models.h"
#include "library/systems.h"
#include "model/matcher/candidate_density.h"
#include "model/prediction/calibration.h"

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// A compound whose retention is asked for.
struct AskedCompound {
    std::string name;
    std::string smiles;
    std::string inchikey;
    std::optional<library::CompoundId> id; ///< in the library, if it holds the compound
};

/// What a compound is expected to show on one system, or why nothing can be said.
struct ExpectedRetention {
    std::string system;
    Quantity quantity = Quantity::Rf;
    matcher::Basis basis = matcher::Basis::predicted;
    std::optional<prediction::Prediction> prediction; ///< on the matcher's model scale
    double expected = 0.0;                            ///< in the unit of the quantity
    double low = 0.0; ///< ends of the interval that holds 90 % of new values
    double high = 0.0;
    std::size_t compounds = 0; ///< that the model was fitted to; runs where it was measured
    std::string refusal;       ///< why there is no prediction
};

/// Expectations of each compound on each system and quantity that the library has values of,
/// compound by compound: from its own values there, else from its values on other systems, as
/// `identify` sees them, else from its structure. One model of structures serves all systems of a
/// family.
/// `progress` is told how many of how many compounds are done, from 0 on.
[[nodiscard]] std::vector<std::vector<ExpectedRetention>> expected_retention(
    RetentionModels &models, const std::vector<AskedCompound> &compounds,
    const std::vector<library::System> &systems,
    const std::function<void(std::size_t done, std::size_t all)> &progress = [](std::size_t,
                                                                                std::size_t) {});

} // namespace cospot
