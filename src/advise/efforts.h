#pragma once

#include "shared/quantity.h"
#include "shared/table.h"

#include <iosfwd>
#include <map>
#include <string>
#include <vector>

namespace cospot {

/// How much a measurement costs relative to one plate, by what it is called: a system, a technique,
/// "standard" (run together with one), "stain" (a reagent, or the lamp), or "mass".
using Efforts = std::map<std::string, double>;

/// Where the user states nothing: a plate, a standard beside the sample and the like (common
/// practice, no source).
[[nodiscard]] Efforts usual_efforts();

/// Reads a table measurement,effort and puts it over `efforts`. Throws InputError for efforts that
/// are not above 0 or above 1000, for a measurement named twice, and for a table without rows.
void read_efforts(std::istream &in, const std::string &file,
                  const std::vector<ColumnAlias> &aliases, Efforts &efforts);

/// The effort of `name`, else that of `kind`.
[[nodiscard]] double effort_of(const Efforts &efforts, const std::string &name,
                               const std::string &kind);

} // namespace cospot
