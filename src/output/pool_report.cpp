#include "output/pool_report.h"

#include <fmt/format.h>

namespace cospot {

std::string target_fault(const PoolReport &report) {
    if (!report.target) {
        return "";
    }
    if (!report.target->component) {
        return fmt::format("no component fits the target {}", report.target->asked);
    }
    const std::size_t index = *report.target->component;
    if (report.pooling.components[index].one_spot.empty()) {
        return fmt::format("no fraction shows the target {} alone: re-run its fractions",
                           report.run.components[index].name);
    }
    return "";
}

bool needs_attention(const PoolReport &report) {
    return !report.warnings.empty() || !target_fault(report).empty();
}

} // namespace cospot
