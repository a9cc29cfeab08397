#pragma once

#include <algorithm>
#include <cmath>
#include <optional>

namespace cospot {

/// Sums over pairs of values, for their correlation.
class PairedSums {
public:
    void add(double x, double y) {
        count_ += 1.0;
        x_ += x;
        y_ += y;
        xx_ += x * x;
        yy_ += y * y;
        xy_ += x * y;
    }

    [[nodiscard]] double count() const { return count_; }

    /// Pearson's; none where one of the two does not vary, or of no pairs.
    [[nodiscard]] std::optional<double> correlation() const {
        const double n = std::max(count_, 1.0);
        const double variances = (xx_ - x_ * x_ / n) * (yy_ - y_ * y_ / n);
        return variances > 0.0 ? std::optional((xy_ - x_ * y_ / n) / std::sqrt(variances))
                               : std::nullopt;
    }

private:
    double count_ = 0.0;
    double x_ = 0.0;
    double y_ = 0.0;
    double xx_ = 0.0;
    double yy_ = 0.0;
    double xy_ = 0.0;
};

} // namespace cospot
