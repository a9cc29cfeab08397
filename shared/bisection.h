#pragma once

namespace cospot {

/// The place from `low` to `high` up to which `is_before` holds, to that range over 2^halvings.
template <typename Predicate>
[[nodiscard]] double bisected(double low, double high, int halvings, const Predicate &is_before) {
    for (int i = 0; i < halvings; ++i) {
        const double middle = 0.5 * (low + high);
        (is_before(middle) ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

} // namespace cospot
