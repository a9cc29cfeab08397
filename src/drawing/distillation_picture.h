#pragma once

#include <string>
#include <vector>

namespace cospot {

/// A temperature at which so much of the area is recovered.
struct DrawnRecovery {
    std::string key; ///< of the row in the table
    double per_cent = 0.0;
    double celsius = 0.0;
};

/// Temperature (degrees C) against per cent recovered; what lies before and behind the ladder, in
/// per cent of the area, is hatched. `recovered` is in ascending order and must not be empty.
[[nodiscard]] std::string distillation_picture(const std::vector<DrawnRecovery> &recovered,
                                               double before_per_cent, double behind_per_cent,
                                               const std::string &title);

} // namespace cospot
