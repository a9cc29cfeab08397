#include "signal/local_fit.h"

#include <Eigen/Dense>

#include <algorithm>

namespace cospot::signal {

namespace {

constexpr int kMostTerms = 6;
using Terms = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, kMostTerms, 1>;
using Normal = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, kMostTerms, kMostTerms>;

Range points_within(std::span<const double> x, double at, double reach, std::size_t least,
                    Range allowed) {
    const auto from = x.begin() + static_cast<std::ptrdiff_t>(allowed.begin);
    const auto to = x.begin() + static_cast<std::ptrdiff_t>(allowed.end);
    Range range{static_cast<std::size_t>(std::lower_bound(from, to, at - reach) - x.begin()),
                static_cast<std::size_t>(std::upper_bound(from, to, at + reach) - x.begin())};
    while (range.end - range.begin < least) {
        const bool left = range.begin > allowed.begin &&
                          (range.end == allowed.end || at - x[range.begin - 1] < x[range.end] - at);
        if (left) {
            --range.begin;
        } else {
            ++range.end;
        }
    }
    return range;
}

Terms powers(double u, int degree) {
    Terms terms(degree + 1);
    terms(0) = 1.0;
    for (int k = 1; k <= degree; ++k) {
        terms(k) = terms(k - 1) * u;
    }
    return terms;
}

} // namespace

std::optional<LocalFit> local_fit(std::span<const double> x, std::span<const double> y, double at,
                                  double reach, int degree, Range allowed) {
    const auto least = static_cast<std::size_t>(degree) + 2;
    if (allowed.end - allowed.begin < least) {
        return std::nullopt;
    }
    const Range range = points_within(x, at, reach, least, allowed);
    const double scale = std::max(at - x[range.begin], x[range.end - 1] - at);
    Normal normal = Normal::Zero(degree + 1, degree + 1);
    Terms right = Terms::Zero(degree + 1);
    for (std::size_t i = range.begin; i < range.end; ++i) {
        const Terms terms = powers((x[i] - at) / scale, degree);
        normal += terms * terms.transpose();
        right += y[i] * terms;
    }
    const Normal inverse = normal.ldlt().solve(Normal::Identity(degree + 1, degree + 1));
    const Terms fitted = inverse * right;
    LocalFit fit{.value = fitted(0),
                 .slope = fitted(1) / scale,
                 .curvature = 2.0 * fitted(2) / (scale * scale),
                 .first = range.begin,
                 .slope_factors = {}};
    for (std::size_t i = range.begin; i < range.end; ++i) {
        fit.slope_factors.push_back(inverse.row(1).dot(powers((x[i] - at) / scale, degree)) /
                                    scale);
    }
    return fit;
}

} // namespace cospot::signal
