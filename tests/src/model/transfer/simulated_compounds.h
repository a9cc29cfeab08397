#pragma once

#include <Eigen/Dense>

#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

namespace cospot::transfer {

inline constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

/// Draws from fixed seeds.
class Draws {
public:
    explicit Draws(std::uint32_t seed) : engine_(seed) {}

    double normal() { return normal_(engine_); }

    /// Student t; infinite freedom: normal.
    double student(double freedom) {
        if (std::isinf(freedom)) {
            return normal();
        }
        std::chi_squared_distribution<double> chi_squared(freedom);
        return normal() / std::sqrt(chi_squared(engine_) / freedom);
    }

    double even(double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(engine_);
    }

    /// Compounds x systems from a multivariate Student t about 0; infinite freedom: normal.
    Eigen::MatrixXd compounds(Eigen::Index count, const Eigen::MatrixXd &covariance,
                              double freedom) {
        const Eigen::MatrixXd factor = covariance.llt().matrixL();
        Eigen::MatrixXd values(count, covariance.rows());
        std::chi_squared_distribution<double> chi_squared(std::isinf(freedom) ? 1.0 : freedom);
        for (Eigen::Index c = 0; c < count; ++c) {
            const Eigen::VectorXd z =
                Eigen::VectorXd::NullaryExpr(covariance.rows(), [&] { return normal(); });
            const double stretch =
                std::isinf(freedom) ? 1.0 : std::sqrt(freedom / chi_squared(engine_));
            values.row(c) = stretch * (factor * z).transpose();
        }
        return values;
    }

    /// Takes a share of the cells away.
    void take_away(Eigen::MatrixXd &values, double share) {
        for (double &value : values.reshaped()) {
            value = even(0.0, 1.0) < share ? kMissing : value;
        }
    }

private:
    std::mt19937 engine_;
    std::normal_distribution<double> normal_;
};

} // namespace cospot::transfer
