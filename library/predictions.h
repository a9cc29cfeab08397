#pragma once

#include "library/database.h"
#include "shared/quantity.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace cospot::library {

/// What the structure of a compound says about itself, as bytes that `store_features` was given;
/// nothing where none are kept.
[[nodiscard]] std::optional<std::string> kept_features(Database &database, CompoundId compound);

/// Keeps them until the structure changes; in the place of older ones.
void store_features(Database &database, CompoundId compound, std::string_view bytes);

/// What was found when values of a quantity on several systems were fitted together, as bytes that
/// `store_prediction_fit` was given. `system` is any of them; nothing where a value changed since.
[[nodiscard]] std::optional<std::string> kept_prediction_fit(Database &database, SystemId system,
                                                             Quantity quantity);

/// Keeps them until a value on one of the systems changes, or the structure of a compound that has
/// values there; in the place of older ones.
void store_prediction_fit(Database &database, std::span<const SystemId> systems, Quantity quantity,
                          std::string_view bytes);

} // namespace cospot::library
