#pragma once

#include "library/descriptions.h"
#include "library/overview.h"

#include <optional>
#include <string>

namespace cospot {

/// One line of JSON for a compound, a system or a measured value of the library. A value has its
/// state where all values are visited.
[[nodiscard]] std::string
compound_json(const library::Compound &compound, const library::Counts &counts,
              const std::optional<library::Description> &description = {});
[[nodiscard]] std::string system_json(const library::System &system, const library::Counts &counts);
[[nodiscard]] std::string measurement_json(const library::MeasurementRecord &record,
                                           library::Visit which = library::Visit::held);

} // namespace cospot
