#pragma once

#include "library/database.h"
#include "shared/quantity.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace cospot::library {

/// One value read for a compound in a run on a system.
struct Measurement {
    std::int64_t compound = 0; ///< id
    std::int64_t system = 0;   ///< id
    std::int64_t run = 0;      ///< id
    Quantity quantity = Quantity::Rf;
    double value = 0.0;                ///< in the unit of the quantity
    std::optional<double> uncertainty; ///< standard uncertainty, in the unit of the quantity
    std::string source;
    std::string note;
};

/// Adds the measurements of one change. A value that the library already held before the change
/// (same compound, run, quantity, value and source) is not stored again; equal values within the
/// change are replicates, so learning a file twice stores each of its rows once.
class MeasurementWriter {
public:
    MeasurementWriter(Database &database, std::int64_t change);

    /// Returns whether the value was new.
    bool add(const Measurement &measurement);

private:
    Database *database_;
    std::int64_t change_;
};

/// A value that holds (neither retired nor superseded), as the matcher wants it.
struct HeldValue {
    std::int64_t compound;
    std::int64_t run;
    bool run_is_named; ///< false: nobody wrote down the run; its values need not belong together
    double value;
};

/// The values that hold on a system, in the order of compounds.
[[nodiscard]] std::vector<HeldValue> values_on_system(Database &database, std::int64_t system,
                                                      Quantity quantity);

} // namespace cospot::library
