#pragma once

#include "library/database.h"
#include "shared/quantity.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <string_view>

namespace cospot::library {

/// Calls `read` with the bytes of the model that was fitted to the values of a quantity on a
/// system, as `store_fit` was given them; they are there during the call only. Not called where no
/// model of that version is kept, or a value changed since.
void read_fit(Database &database, std::int64_t system, Quantity quantity, std::int64_t version,
              const std::function<void(std::string_view)> &read);

/// Keeps a model until a value of the system changes; in the place of an older one. `values` is how
/// many it was fitted to, at least 1.
void store_fit(Database &database, std::int64_t system, Quantity quantity, std::int64_t version,
               std::int64_t values, std::string_view model);

struct KeptFit {
    std::int64_t version;
    std::int64_t values; ///< that it was fitted to
};

/// The model that is kept, of any version, or none.
[[nodiscard]] std::optional<KeptFit> kept_fit(Database &database, std::int64_t system,
                                              Quantity quantity);

} // namespace cospot::library
