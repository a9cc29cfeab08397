#pragma once

#include "library/changes.h"
#include "library/database.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::library {

/// What retiring, or taking it back, did.
struct RetireSummary {
    std::size_t changed = 0;   ///< values that changed their state
    std::size_t unchanged = 0; ///< values that were in that state already
};

/// Retires values by their ids: they no longer count but stay readable, with the reason. One
/// change. A value that is retired already keeps its first reason. Throws InputError, with nothing
/// changed, for an id that the library does not hold.
RetireSummary retire_values(Database &database, const std::vector<MeasurementId> &ids,
                            std::string_view reason);

/// Lets retired values count again; the change says why. Throws InputError for an id that the
/// library does not hold, and for a value whose whole system or compound is retired.
RetireSummary take_back_values(Database &database, const std::vector<MeasurementId> &ids,
                               std::string_view reason);

/// Retires a system with all its values; values that it gets later are retired too. Returns how
/// many values changed their state; nothing where the system was retired already. Throws InputError
/// for a name that the library does not hold.
std::optional<std::size_t> retire_system(Database &database, std::string_view name,
                                         std::string_view reason);

/// Lets a retired system count again, but for values that were retired one by one or with their
/// compound. Returns how many values count again; nothing where the system was in use. Throws as
/// `retire_system` does.
std::optional<std::size_t> take_back_system(Database &database, std::string_view name,
                                            std::string_view reason);

/// Retires a compound with all its values, those that it gets later too: it is no candidate any
/// more. Returns how many values changed their state; nothing where the compound was retired
/// already. Throws InputError for a name that is not one compound's.
std::optional<std::size_t> retire_compound(Database &database, const std::string &name,
                                           std::string_view reason);

/// Lets a retired compound count again, but for values that were retired one by one or with their
/// system. Returns how many values count again; nothing where the compound was in use. Throws as
/// `retire_compound` does.
std::optional<std::size_t> take_back_compound(Database &database, const std::string &name,
                                              std::string_view reason);

/// Who retired the compound, when and why; nothing where it is in use.
[[nodiscard]] std::optional<Change> retirement_of_compound(Database &database, CompoundId compound);

/// Who retired the system, when and why; nothing where it is in use.
[[nodiscard]] std::optional<Change> retirement_of_system(Database &database, SystemId system);

} // namespace cospot::library
