#pragma once

#include "library/systems.h"
#include "shared/eluent.h"
#include "shared/table.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// A system as the user describes it, with where that stands.
struct SystemRow {
    library::System system;
    std::vector<SolventPart> eluent; ///< its mobile phase; empty where that is not stated
    Where where;
};

/// Reads the systems table (columns system,technique, optional stationary_phase,mobile_phase,scale,
/// programme,reference,column_length_m,column_diameter_mm,film_um,particle_um,note). Throws
/// InputError for an unknown technique, an index scale that is not known, a reference for a plate,
/// a system named twice.
[[nodiscard]] std::vector<SystemRow> read_systems(std::istream &in, const std::string &file,
                                                  std::vector<std::string> *notes = nullptr,
                                                  const std::vector<ColumnAlias> &aliases = {});

} // namespace cospot
