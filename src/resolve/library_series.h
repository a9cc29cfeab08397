#pragma once

#include "library/database.h"
#include "library/systems.h"
#include "readers/measured_compound.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot::resolve {

/// What a library holds on systems that differ in the fraction of one solvent only.
struct LibrarySeries {
    std::vector<MeasuredCompound> compounds; ///< every reading of k above 0, run by run
    std::string stationary_phase;
    std::string modifier; ///< the solvent that the fractions count
    std::string other;
    std::vector<std::string> systems; ///< by name
    std::vector<std::string> notes;   ///< what was left out
};

/// The series that a system belongs to: all isocratic hplc systems with its stationary phase, its
/// programme and its two solvents. The modifier is the solvent beside water or a buffer, else the
/// more polar one (`quantities::solvent_polarity`), unless it is named. `names`: the compounds
/// wanted; empty for all with two fractions or more. Throws InputError for a system that is not
/// such a one, a series with one fraction, and a named compound that is not known or has one
/// fraction only.
[[nodiscard]] LibrarySeries library_series(library::Database &database, const std::string &system,
                                           const std::optional<std::string> &modifier,
                                           const std::vector<std::string> &names);

/// Sets log P of the compounds that the library knows by name and describes, and that bear no
/// charge of their own.
void add_log_p(library::Database &database, std::vector<MeasuredCompound> &compounds);

} // namespace cospot::resolve
