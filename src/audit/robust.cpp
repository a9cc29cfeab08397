#include "audit/robust.h"

#include "shared/robust.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cospot {

double median(std::vector<double> values) {
    if (values.empty()) {
        throw std::invalid_argument("median of no values");
    }
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) {
        return *middle;
    }
    return (*std::max_element(values.begin(), middle) + *middle) / 2;
}

double robust_deviation(std::vector<double> deviations) {
    for (double &deviation : deviations) {
        deviation = std::abs(deviation);
    }
    return kDeviationOfMedian * median(std::move(deviations));
}

} // namespace cospot
