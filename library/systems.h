#pragma once

#include "library/database.h"
#include "shared/eluent.h"
#include "shared/quantity.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::library {

/// What a retention value holds under. An empty text means "not stated".
struct System {
    SystemId id{}; ///< in the library
    std::string name;
    Technique technique = Technique::tlc;
    std::string stationary_phase;
    std::string mobile_phase; ///< or carrier gas
    std::string programme;    ///< oven programme or gradient
    std::string scale;        ///< of the retention index
    std::string reference;    ///< compound that RRT and r are relative to, by any of its names
    std::optional<double> column_length_m;
    std::optional<double> column_diameter_mm;
    std::optional<double> film_um;
    std::optional<double> particle_um;
    std::string note;
    bool retired = false; ///< withdrawn with all its values
};

/// Stores a system that the library does not hold yet, with its mobile phase as parts.
SystemId add_system(Database &database, const System &system,
                    const std::vector<SolventPart> &eluent, ChangeId change);

/// Writes into a stored system what it left unstated; `system.id` says which.
void complete_system(Database &database, const System &system,
                     const std::vector<SolventPart> &eluent);

/// Gives a system another name; the old one is kept as a former name.
void give_name(Database &database, const System &system, const std::string &name, ChangeId change);

/// Keeps a further name by which a system is found.
void keep_former_name(Database &database, SystemId system, const std::string &name,
                      ChangeId change);

/// Names that the system had before.
[[nodiscard]] std::vector<std::string> former_names_of(Database &database, SystemId system);

/// The mobile phase of a system as parts, in the order in which it is written.
[[nodiscard]] std::vector<SolventPart> eluent_of(Database &database, SystemId system);

/// The system of that name: the one that is called exactly so, else the one that was until it was
/// renamed, else the one of which either is true but for the case of ASCII letters. Throws
/// InputError where several differ in case only, as an earlier version of the program let them.
[[nodiscard]] std::optional<System> find_system(Database &database, std::string_view name);
[[nodiscard]] std::optional<System> find_system(Database &database, SystemId id);
/// All systems in the order of their names.
[[nodiscard]] std::vector<System> all_systems(Database &database);

} // namespace cospot::library
