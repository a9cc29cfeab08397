#pragma once

#include "library/compounds.h"
#include "library/database.h"
#include "library/systems.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

namespace cospot::library {

/// A value with the conditions it was measured under, for reading.
struct MeasurementRecord {
    std::int64_t id = 0;
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
};

/// How much the library holds on something.
struct Counts {
    std::int64_t values = 0;
    std::int64_t others = 0; ///< systems of a compound, compounds on a system
};

/// Calls `visit` for each compound in the order of names.
void for_each_compound(Database &database,
                       const std::function<void(const Compound &, const Counts &)> &visit);
[[nodiscard]] Counts counts_of_system(Database &database, std::int64_t system);

/// Calls `visit` for each value that holds of a compound, by system, quantity, date and run.
void for_each_value_of_compound(Database &database, std::int64_t compound,
                                const std::function<void(const MeasurementRecord &)> &visit);
/// The same for a system, by compound, quantity, date and run.
void for_each_value_on_system(Database &database, std::int64_t system,
                              const std::function<void(const MeasurementRecord &)> &visit);

} // namespace cospot::library
