#include "audit/robust.h"

#include <cmath>
#include <utility>

namespace cospot {

double robust_deviation(std::vector<double> deviations) {
    for (double &deviation : deviations) {
        deviation = std::abs(deviation);
    }
    return kDeviationOfMedian * median(std::move(deviations));
}

} // namespace cospot
