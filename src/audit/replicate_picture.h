#pragma once

#include <string>
#include <vector>

namespace cospot {

/// A value of one compound on one system.
struct DrawnValue {
    std::string key;   ///< ties it to its row
    std::string title; ///< in words
    std::string date;  ///< YYYY-MM-DD, less, or empty
    double value = 0.0;
    bool is_suspect = false;
};

/// The values over their dates where all are full dates, else side by side in the order given.
/// Suspect values are filled diamonds, the others rings; a line marks the median. `values` must
/// not be empty; `unit` names the quantity.
[[nodiscard]] std::string replicate_picture(const std::vector<DrawnValue> &values,
                                            const std::string &unit, const std::string &title);

} // namespace cospot
