#pragma once

#include <cstdint>
#include <string>

namespace cospot {

/// A count that may be large, as it is read: "100,000".
[[nodiscard]] inline std::string in_thousands(std::int64_t count) {
    std::string digits = std::to_string(count);
    for (std::size_t place = digits.size(); place > 3; place -= 3) {
        digits.insert(place - 3, ",");
    }
    return digits;
}

} // namespace cospot
