#pragma once

#include "matcher/system_model.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace cospot {

/// Add one whenever the bytes, or what `fit_system` makes of values, change: older ones then do not
/// count.
inline constexpr std::int64_t kFitVersion = 1;

/// A fitted model as bytes that a library can keep. `model` must hold measured candidates only, as
/// `fit_system` makes them.
[[nodiscard]] std::string to_bytes(const matcher::SystemModel &model);

/// The very model that `to_bytes` was given, of the same quantity; none where the bytes come from a
/// machine with another order of bytes, or are damaged so that they cannot be a model.
[[nodiscard]] std::optional<matcher::SystemModel> model_from_bytes(Quantity quantity,
                                                                   std::string_view bytes);

} // namespace cospot
