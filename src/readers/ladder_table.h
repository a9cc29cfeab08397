#pragma once

#include "quantities/ladder.h"
#include "shared/table.h"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// Reads a ladder (columns carbon,tR or standard,tR; tR in min) for a system with index scale
/// `system_scale`; none is a series of the laboratory's own, whose members have carbon numbers.
/// Names such as "decane", "C10 decane" or "acetophenone" give carbon number and scale, in either
/// column. Throws InputError where a
/// member belongs to another scale than the system's, and, with the file's name, for all that
/// `check_ladder` refuses.
[[nodiscard]] quantities::Ladder read_ladder(std::istream &in, const std::string &file,
                                             std::optional<quantities::IndexScale> system_scale,
                                             quantities::LadderGaps gaps,
                                             const std::vector<ColumnAlias> &aliases = {});

} // namespace cospot
