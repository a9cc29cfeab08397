#pragma once

#include "library/ids.h"
#include "library/overview.h"
#include "library/selection.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <variant>

namespace cospot::library {

/// Which values to visit.
enum class Visit { held, all };

/// Values of a compound or of a system that are asked for.
struct ValueQuestion {
    std::variant<CompoundId, SystemId> of;
    Visit which = Visit::held;
    Selection selection{};
    std::optional<std::size_t> top{}; ///< only the first ones
};

/// Calls `visit` for each of these values: of a compound by system, quantity, date and run; of a
/// system by compound, quantity, date and run.
void for_each_record(Database &database, const ValueQuestion &question,
                     const std::function<void(const MeasurementRecord &)> &visit);

/// How many values a question is about, whatever its `top`.
struct RecordCounts {
    std::int64_t all = 0;
    std::int64_t held = 0;
    std::int64_t others = 0; ///< of those held: systems of a compound, compounds on a system
};
[[nodiscard]] RecordCounts count_records(Database &database, const ValueQuestion &question);

} // namespace cospot::library
