#pragma once

#include "document/json.h"

#include <string>
#include <vector>

namespace cospot {

/// The objects that pool_json returns, by what they are about.
struct PoolObjects {
    std::vector<const Json *> components;
    const Json *run = nullptr; ///< the last one
};

[[nodiscard]] PoolObjects pool_objects(const Json &results);

/// Whether a detector saw the run.
[[nodiscard]] bool is_trace(const Json &run);

/// "A", "A and B", "A, B and C".
[[nodiscard]] std::string joined_names(const Json &names);

/// "one spot: B", "several spots: A, B", "no spot seen"; of a trace, bands.
[[nodiscard]] std::string seen_words(const Json &fraction, bool by_detector);

/// The pictures of the run with their caption (HTML); marks have the numbers of fractions as keys.
[[nodiscard]] std::string pool_figures(const PoolObjects &objects);

} // namespace cospot
