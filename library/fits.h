#pragma once

#include "library/database.h"
#include "shared/quantity.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace cospot::library {

/// The model that was fitted to the values of a quantity on a system: what holds for all of it, and
/// parts, of which a question may need some only.
struct KeptFit {
    FitId id;
    std::int64_t version;
    std::int64_t values; ///< that it was fitted to
};

/// What a fit of that system and quantity has to be made of: both, and how many values there are
/// with sums over them. One scan of an index. Where other bytes come out, a value was changed past
/// the triggers, or the fit is another system's.
[[nodiscard]] std::string origin_of_fit(Database &database, SystemId system, Quantity quantity);

/// The model that is kept, of any version, or none where a value changed since.
[[nodiscard]] std::optional<KeptFit> kept_fit(Database &database, SystemId system,
                                              Quantity quantity);

/// Calls `read` with bytes as `store_fit` was given them; they are there during the call only.
using ReadBytes = std::function<void(std::string_view)>;
void read_summary(Database &database, const KeptFit &fit, const ReadBytes &read);

/// The same for the parts with the numbers from `first` to `last`, in their order. A damaged
/// library may lack some.
void read_parts(Database &database, const KeptFit &fit, std::size_t first, std::size_t last,
                const ReadBytes &read);

/// How many parts there are.
[[nodiscard]] std::size_t count_parts(Database &database, const KeptFit &fit);

/// Keeps a model until a value of the system changes; in the place of an older one. `values` is how
/// many it was fitted to, at least 1.
void store_fit(Database &database, SystemId system, Quantity quantity, std::int64_t version,
               std::int64_t values, std::string_view summary, std::span<const std::string> parts);

} // namespace cospot::library
