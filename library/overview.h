#pragma once

#include "library/changes.h"
#include "library/compounds.h"
#include "library/database.h"
#include "library/systems.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::library {

/// Whether a value counts.
enum class ValueState {
    held,       ///< counts
    superseded, ///< replaced by a corrected value
    retired,    ///< withdrawn
};

[[nodiscard]] std::string_view to_text(ValueState state);

/// A value with the conditions it was measured under, for reading.
struct MeasurementRecord {
    MeasurementId id{};
    std::string compound;
    std::string system;
    Quantity quantity = Quantity::Rf;
    double value = 0.0;
    std::optional<double> uncertainty;
    std::string run;
    std::string date;
    std::string operator_name;
    std::string instrument;
    std::string source;
    std::string note;
    ValueState state = ValueState::held;
    std::optional<MeasurementId> superseded_by; ///< the corrected value
    Change learned;
    std::optional<Change> withdrawn; ///< how a value that is not held came to be so
};

/// What counts as a repeat, in the words of every screen; `values_on_system` counts so.
inline constexpr std::string_view kIndependentRuns =
    "A run is one plate, injection or series. Runs of one day on one system count as one "
    "independent run, a run without a date by itself, and so does a value without run and date.";

/// The number of independent runs, each on one system, that the held of these values are from.
[[nodiscard]] std::size_t independent_runs(std::span<const MeasurementRecord> values);

/// How much the library holds on something.
struct Counts {
    std::int64_t values = 0;
    std::int64_t others = 0; ///< systems of a compound, compounds on a system
};

/// Of the values that hold.
[[nodiscard]] Counts counts_of_compound(Database &database, CompoundId compound);
[[nodiscard]] Counts counts_of_system(Database &database, SystemId system);
/// How many values of a quantity a system holds, but counted only up to `most`, which is quick.
[[nodiscard]] std::int64_t values_up_to(Database &database, SystemId system, Quantity quantity,
                                        std::int64_t most);

/// A quantity that was measured on a system, which is named.
struct MeasuredQuantity {
    std::string system;
    Quantity quantity = Quantity::Rf;
};

/// The quantities of which values of the compound hold, on each system; in no order.
[[nodiscard]] std::vector<MeasuredQuantity> quantities_of_compound(Database &database,
                                                                   CompoundId compound);

/// The quantities of which values hold on the system.
[[nodiscard]] std::vector<Quantity> quantities_on_system(Database &database, SystemId system);

} // namespace cospot::library
