#include "output/verdict_text.h"

#include <fmt/format.h>

namespace cospot {

std::string verdict_sentence(const Reliability &reliability) {
    const ReliabilityBin sure = verdict(reliability);
    if (sure.count < kFewStatements) {
        return fmt::format("Only {} statements were made with 80 % or more: too few to judge them.",
                           sure.count);
    }
    const std::string words =
        fmt::format("When this library says {:.0f} %, it is right {:.0f} % of the time (n = {}).",
                    100 * sure.stated, 100 * sure.right, sure.count);
    return is_too_sure(sure)
               ? words + " That is too sure: read its probabilities as an order only, "
                         "look for values that contradict each other (cospot audit), "
                         "and measure more runs."
               : words;
}

} // namespace cospot
