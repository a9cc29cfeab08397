#include "model/prediction/compound_space.h"

#include <algorithm>
#include <cmath>

namespace cospot::prediction {

namespace {

/// Beyond this many standard deviations a descriptor says no more.
constexpr double kBound = 6.0;
constexpr double kSmallestDeviation = 1e-9;

double compressed(double value) {
    return std::copysign(std::log1p(std::abs(value)), value);
}

Eigen::MatrixXd scaled_columns(const DescriptorScale &scale,
                               const std::vector<CompoundFeatures> &compounds) {
    Eigen::MatrixXd columns(scale.mean.size(), static_cast<Eigen::Index>(compounds.size()));
    for (std::size_t i = 0; i < compounds.size(); ++i) {
        columns.col(static_cast<Eigen::Index>(i)) = scaled(scale, compounds[i]);
    }
    return columns;
}

} // namespace

DescriptorScale fit_scale(const std::vector<CompoundFeatures> &training) {
    const std::size_t length = training.empty() ? 0 : training.front().descriptors.size();
    const auto count = static_cast<double>(training.size());
    DescriptorScale scale;
    std::vector<double> means;
    std::vector<double> deviations;
    for (std::size_t k = 0; k < length; ++k) {
        double sum = 0.0;
        for (const auto &compound : training) {
            sum += compressed(compound.descriptors[k]);
        }
        const double mean = sum / count;
        double squares = 0.0;
        for (const auto &compound : training) {
            squares += std::pow(compressed(compound.descriptors[k]) - mean, 2);
        }
        const double deviation = std::sqrt(squares / count);
        if (deviation > kSmallestDeviation) {
            scale.used.push_back(k);
            means.push_back(mean);
            deviations.push_back(deviation);
        }
    }
    const auto used = static_cast<Eigen::Index>(scale.used.size());
    scale.mean = Eigen::Map<Eigen::VectorXd>(means.data(), used);
    scale.deviation = Eigen::Map<Eigen::VectorXd>(deviations.data(), used);
    if (used > 0) {
        scale.linear_norm = scaled_columns(scale, training).colwise().squaredNorm().mean();
    }
    return scale;
}

Eigen::VectorXd scaled(const DescriptorScale &scale, const CompoundFeatures &compound) {
    Eigen::VectorXd result(scale.mean.size());
    for (Eigen::Index k = 0; k < result.size(); ++k) {
        const double value = compound.descriptors[scale.used[static_cast<std::size_t>(k)]];
        result[k] =
            std::clamp((compressed(value) - scale.mean[k]) / scale.deviation[k], -kBound, kBound);
    }
    return result;
}

double fingerprint_similarity(const CountFingerprint &a, const CountFingerprint &b) {
    double common = 0.0;
    double total = 0.0;
    auto left = a.begin();
    auto right = b.begin();
    while (left != a.end() || right != b.end()) {
        if (right == b.end() || (left != a.end() && left->first < right->first)) {
            total += (left++)->second;
        } else if (left == a.end() || right->first < left->first) {
            total += (right++)->second;
        } else {
            common += std::min(left->second, right->second);
            total += std::max(left->second, right->second);
            ++left;
            ++right;
        }
    }
    return total > 0.0 ? common / total : 0.0;
}

CompoundGrams compare_compounds(const DescriptorScale &scale,
                                const std::vector<CompoundFeatures> &rows,
                                const std::vector<CompoundFeatures> &columns) {
    const Eigen::MatrixXd left = scaled_columns(scale, rows);
    const Eigen::MatrixXd right = scaled_columns(scale, columns);
    const double length = std::max(1.0, static_cast<double>(left.rows()));
    CompoundGrams grams;
    const Eigen::MatrixXd products = left.transpose() * right;
    grams.linear = products / scale.linear_norm;
    grams.squared_distance = -2.0 * products;
    grams.squared_distance.colwise() += left.colwise().squaredNorm().transpose();
    grams.squared_distance.rowwise() += right.colwise().squaredNorm();
    grams.squared_distance = grams.squared_distance.cwiseMax(0.0) / length;
    grams.fingerprint.resize(left.cols(), right.cols());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        for (std::size_t j = 0; j < columns.size(); ++j) {
            grams.fingerprint(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) =
                fingerprint_similarity(rows[i].fingerprint, columns[j].fingerprint);
        }
    }
    return grams;
}

Eigen::MatrixXd compound_kernel(const CompoundGrams &grams, const CompoundWeights &weights) {
    const double exponent = -0.5 / (kRadialWidth * kRadialWidth);
    return (weights.linear * grams.linear + weights.fingerprint * grams.fingerprint).array() +
           weights.radial * (exponent * grams.squared_distance).array().exp() + weights.common;
}

CompoundGrams part_of(const CompoundGrams &grams, const std::vector<Eigen::Index> &rows,
                      const std::vector<Eigen::Index> &columns) {
    return {grams.linear(rows, columns), grams.squared_distance(rows, columns),
            grams.fingerprint(rows, columns)};
}

} // namespace cospot::prediction
