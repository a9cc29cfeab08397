#include "signal/maxima.h"

#include <algorithm>

namespace cospot::signal {

std::vector<Maximum> prominent_maxima(std::span<const double> values,
                                      const LeastProminence &least) {
    std::vector<Maximum> maxima;
    const auto prominence = [&](double height) {
        return std::max(least.absolute, least.share_of_height * height);
    };
    std::size_t low = 0;
    std::size_t high = 0;
    bool rising = false;
    for (std::size_t i = 1; i < values.size(); ++i) {
        if (rising) {
            if (values[i] > values[high]) {
                high = i;
            } else if (values[high] - values[i] > prominence(values[high])) {
                maxima.push_back({.top = high, .valley_before = low, .valley_after = i});
                low = i;
                rising = false;
            }
        } else if (values[i] < values[low]) {
            low = i;
        } else if (values[i] - values[low] > prominence(values[i])) {
            if (!maxima.empty()) {
                maxima.back().valley_after = low;
            }
            high = i;
            rising = true;
        }
    }
    if (!maxima.empty()) {
        Maximum &last = maxima.back();
        const auto begin = values.begin() + static_cast<std::ptrdiff_t>(last.top);
        last.valley_after =
            static_cast<std::size_t>(std::min_element(begin, values.end()) - values.begin());
    }
    return maxima;
}

Fall fall_to(std::span<const double> x, std::span<const double> values, double level,
             std::size_t from, std::size_t last) {
    if (values[from] <= level) {
        return {x[from], true};
    }
    for (std::size_t i = from; i != last;) {
        const std::size_t next = last > i ? i + 1 : i - 1;
        if (values[next] <= level) {
            const double drop = values[i] - values[next];
            const double share =
                std::min(1.0, (values[i] - level) / drop); // above, then not: it drops
            return {x[i] + share * (x[next] - x[i]), true};
        }
        i = next;
    }
    return {x[last], false};
}

} // namespace cospot::signal
