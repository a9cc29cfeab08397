#pragma once

#include <fmt/format.h>

#include <string>

namespace cospot {

/// Two digits, but never a certainty that the model does not give.
[[nodiscard]] inline std::string probability_text(double probability) {
    if (probability >= 0.995) {
        return ">0.99";
    }
    return probability < 0.005 ? "<0.01" : fmt::format("{:.2f}", probability);
}

} // namespace cospot
