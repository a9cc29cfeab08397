#include "peaks/compared_peaks.h"

#include <cmath>

namespace cospot {

std::vector<ComparedPeak> compared_with_stored(const Integration &integration) {
    std::vector<ComparedPeak> compared;
    for (const StoredPeak &stored : integration.stored) {
        const signal::FoundPeak *nearest = nullptr;
        for (const signal::FoundPeak &found : integration.found.peaks) {
            const bool is_inside = stored.apex_min >= found.start && stored.apex_min <= found.end;
            if (is_inside &&
                (nearest == nullptr || std::abs(found.apex - stored.apex_min) <
                                           std::abs(nearest->apex - stored.apex_min))) {
                nearest = &found;
            }
        }
        compared.push_back({&stored, nearest});
    }
    return compared;
}

} // namespace cospot
