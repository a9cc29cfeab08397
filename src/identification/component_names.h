#pragma once

#include "fractions/fraction.h"
#include "identification/identification.h"
#include "library/database.h"

#include <string>
#include <vector>

namespace cospot {

/// What the library makes of the components of a column.
struct ComponentNames {
    std::vector<Identification> components; ///< one a component
    std::vector<std::string> notes;
};

/// How the plates were read on which the components were seen.
struct ComponentReading {
    std::string system; ///< on which the plates were developed
    double front_mm = 0.0;
    double reading_error_mm = 0.0;
};

/// Ranks the compounds of the library for each component, at its mean R_F, all components of the
/// column together. The mean is taken to be as uncertain as one reading: what shifts a plate shifts
/// all its lanes. Throws InputError for a system that the library does not hold or that shows no
/// R_F. Every component must have an R_F.
[[nodiscard]] ComponentNames name_components(const fractions::ColumnRun &run,
                                             const ComponentReading &reading,
                                             library::Database &database);

} // namespace cospot
