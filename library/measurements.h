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
    CompoundId compound{};
    SystemId system{};
    RunId run{};
    Quantity quantity = Quantity::Rf;
    double value = 0.0;                ///< in the unit of the quantity
    std::optional<double> uncertainty; ///< standard uncertainty, in the unit of the quantity
    std::string source;
    std::string note;
};

/// Stores a measurement, whatever the library holds already; returns its id. On a retired system,
/// or of a retired compound, it is retired too.
MeasurementId insert_measurement(Database &database, const Measurement &measurement,
                                 ChangeId change);

/// Adds the measurements of one change, file by file. A value that the library already held before
/// the file (same compound, run, quantity, value and source) is not stored again; equal values
/// within the file are replicates, so learning a file twice stores each of its rows once.
class MeasurementWriter {
public:
    MeasurementWriter(Database &database, ChangeId change);

    /// Ends the present file: what it added counts as held for the next one.
    void begin_file();

    /// Returns whether the value was new.
    bool add(const Measurement &measurement);

    /// The value that `add` stored last, or found to be held.
    [[nodiscard]] MeasurementId last_id() const noexcept { return last_id_; }

private:
    /// Id of a value held before the present file that equals this one and that no row of the file
    /// has matched yet; 0 where there is none.
    MeasurementId held_before(const Measurement &measurement);

    Database *database_;
    ChangeId change_;
    MeasurementId last_held_{}; ///< id of the newest value before the present file
    MeasurementId last_id_{};
};

/// A value that holds (neither retired nor superseded), as the matcher wants it.
struct HeldValue {
    CompoundId compound;
    RunId run;
    bool run_is_named; ///< false: nobody wrote down the run; its values need not belong together
    double value;
    std::int64_t session; ///< the same for all runs of one day, negative; the run where the day is
                          ///< not known
    double uncertainty = 0.0;     ///< stated standard uncertainty, unit of the quantity; 0: none
    std::optional<double> year{}; ///< of the run's date (`decimal_year`); none: not dated
    /// Numbers that stand for the InChIKey and for what names the run (`number_of`). They do not
    /// depend on when a row was learned, as ids do: whatever is split or drawn goes by them.
    std::uint64_t compound_key = 0;
    std::uint64_t run_key = 0;
};

/// Whether the day of the run is known.
[[nodiscard]] inline bool is_dated(const HeldValue &value) {
    return value.session < 0;
}

/// The values that hold on a system, those of one compound together: in the order of their keys and
/// values, which is the same whatever the order they were learned in.
[[nodiscard]] std::vector<HeldValue> values_on_system(Database &database, SystemId system,
                                                      Quantity quantity);

} // namespace cospot::library
