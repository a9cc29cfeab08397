#include "signal/penalised_smoother.h"

#include "shared/error.h"
#include "shared/number.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace cospot::signal {

void require_trace(std::span<const double> x, std::span<const double> y, std::size_t least) {
    if (x.size() != y.size()) {
        throw InputError({}, fmt::format("{} places and {} values", x.size(), y.size()),
                         "a value for each place of the trace");
    }
    if (x.size() < least) {
        throw InputError({}, fmt::format("a trace of {} points", x.size()),
                         fmt::format("at least {} points", least));
    }
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (!std::isfinite(x[i]) || !std::isfinite(y[i])) {
            throw InputError({}, fmt::format("no number at point {} of the trace", i + 1),
                             "a place and a value at each point");
        }
        if (i > 0 && x[i] <= x[i - 1]) {
            throw InputError({},
                             fmt::format("{} at point {} of the trace, after {}", exact_text(x[i]),
                                         i + 1, exact_text(x[i - 1])),
                             "places that rise from point to point");
        }
    }
}

double mean_step(std::span<const double> x) {
    return (x.back() - x.front()) / static_cast<double>(x.size() - 1);
}

PenalisedSmoother::PenalisedSmoother(std::span<const double> x, double period)
    : PenalisedSmoother(x, std::vector<double>(x.size(), period)) {}

PenalisedSmoother::PenalisedSmoother(std::span<const double> x, std::span<const double> periods) {
    const std::size_t n = x.size();
    if (n < 3) {
        throw std::invalid_argument("a smoother of fewer than 3 points");
    }
    const double step = mean_step(x);
    for (auto *values : {&diagonal_, &off1_, &off2_, &pivot_, &lower1_, &lower2_}) {
        values->assign(n, 0.0);
    }
    stretch_.assign(n, (x[1] - x[0]) / step);
    stretch_.back() = (x[n - 1] - x[n - 2]) / step;
    for (std::size_t i = 1; i + 1 < n; ++i) {
        const double before = (x[i] - x[i - 1]) / step;
        const double after = (x[i + 1] - x[i]) / step;
        stretch_[i] = 0.5 * (before + after);
        const double a = 1.0 / (before * stretch_[i]);
        const double c = 1.0 / (after * stretch_[i]);
        const double b = -(a + c);
        const double period = periods[i] / step / (2.0 * std::numbers::pi);
        const double q = period * period * period * period * stretch_[i];
        diagonal_[i - 1] += q * a * a;
        diagonal_[i] += q * b * b;
        diagonal_[i + 1] += q * c * c;
        off1_[i - 1] += q * a * b;
        off1_[i] += q * b * c;
        off2_[i - 1] += q * a * c;
    }
}

std::vector<double> PenalisedSmoother::smooth(std::span<const double> y,
                                              std::span<const double> weights) {
    const std::size_t n = stretch_.size();
    std::vector<double> z(n);
    for (std::size_t i = 0; i < n; ++i) { // L D L' and L z = right side
        const double weight = stretch_[i] * weights[i];
        double pivot = diagonal_[i] + weight;
        double right = weight * y[i];
        double next = off1_[i];
        if (i >= 1) {
            pivot -= lower1_[i - 1] * lower1_[i - 1] * pivot_[i - 1];
            right -= lower1_[i - 1] * z[i - 1];
            next -= lower1_[i - 1] * pivot_[i - 1] * lower2_[i - 1];
        }
        if (i >= 2) {
            pivot -= lower2_[i - 2] * lower2_[i - 2] * pivot_[i - 2];
            right -= lower2_[i - 2] * z[i - 2];
        }
        pivot_[i] = pivot;
        lower1_[i] = next / pivot;
        lower2_[i] = off2_[i] / pivot;
        z[i] = right;
    }
    for (std::size_t i = n; i-- > 0;) {
        z[i] /= pivot_[i];
        if (i + 1 < n) {
            z[i] -= lower1_[i] * z[i + 1];
        }
        if (i + 2 < n) {
            z[i] -= lower2_[i] * z[i + 2];
        }
    }
    return z;
}

std::vector<double> PenalisedSmoother::smooth(std::span<const double> y) {
    return smooth(y, std::vector<double>(stretch_.size(), 1.0));
}

} // namespace cospot::signal
