#pragma once

#include <optional>
#include <string>
#include <vector>

namespace cospot::eluent_choice {

/// One isocratic reading of a compound.
struct RetentionPoint {
    double fraction = 0.0; ///< volume fraction of the modifier, 0 to 1
    double k = 0.0;        ///< retention factor, above 0
};

/// A compound with all its readings, at two fractions or more.
struct MeasuredCompound {
    std::string name;
    std::vector<RetentionPoint> points;
    std::optional<double> log_p; ///< of its structure, where a library knows it; uncharged form
};

} // namespace cospot::eluent_choice
