#include "resolve/retention_line.h"

#include "shared/error.h"

#include <Eigen/Dense>

#include <cmath>
#include <set>

namespace cospot::resolve {

namespace {

constexpr double kVisibleBend = 0.05; // log10 k
constexpr double kSureErrors = 2.0;

/// Whether a parabola leaves its chord visibly; the fractions count from the middle of the range in
/// units of half of it, so that the parabola's square term is the bend itself.
bool shows_bend(const std::vector<RetentionPoint> &points, double low, double high) {
    const auto rows = static_cast<Eigen::Index>(points.size());
    Eigen::MatrixXd terms(rows, 3);
    Eigen::VectorXd log_k(rows);
    for (Eigen::Index i = 0; i < rows; ++i) {
        const RetentionPoint &point = points[static_cast<std::size_t>(i)];
        const double x = (2.0 * point.fraction - low - high) / (high - low);
        terms.row(i) << 1.0, x, x * x;
        log_k[i] = std::log10(point.k);
    }
    const Eigen::VectorXd parabola = terms.colPivHouseholderQr().solve(log_k);
    const double bend = std::abs(parabola[2]);
    if (bend <= kVisibleBend || rows == 3) {
        return bend > kVisibleBend;
    }
    const double variance =
        (log_k - terms * parabola).squaredNorm() / static_cast<double>(rows - 3);
    const double error = std::sqrt(variance * (terms.transpose() * terms).inverse()(2, 2));
    return bend > kSureErrors * error;
}

} // namespace

RetentionLine fit_line(const std::vector<RetentionPoint> &points) {
    std::set<double> fractions;
    double sum = 0.0;
    double log_sum = 0.0;
    for (const RetentionPoint &point : points) {
        fractions.insert(point.fraction);
        sum += point.fraction;
        log_sum += std::log10(point.k);
    }
    if (fraction_span(points) < kLeastSpan) {
        throw InputError({}, "one fraction", "readings at two fractions or more");
    }
    RetentionLine line;
    line.low = *fractions.begin();
    line.high = *fractions.rbegin();
    line.readings = points.size();
    line.fractions = fractions.size();
    const double count = static_cast<double>(points.size());
    line.mean_fraction = sum / count;
    double products = 0.0;
    for (const RetentionPoint &point : points) {
        const double distance = point.fraction - line.mean_fraction;
        line.fraction_squares += distance * distance;
        products += distance * std::log10(point.k);
    }
    line.law.slope = -products / line.fraction_squares;
    line.law.log_k_weak = log_sum / count + line.law.slope * line.mean_fraction;
    if (line.readings == 2) {
        return line;
    }
    double worst = 0.0;
    for (const RetentionPoint &point : points) {
        const double residual =
            std::log10(point.k) - line.law.log_k_weak + line.law.slope * point.fraction;
        line.residual_squares += residual * residual;
        worst = std::abs(residual) > std::abs(worst) ? residual : worst;
    }
    line.worst_factor = std::pow(10.0, worst);
    line.is_bent = line.fractions > 2 && shows_bend(points, line.low, line.high);
    return line;
}

std::optional<Scatter> pooled_scatter(const std::vector<RetentionLine> &lines) {
    double squares = 0.0;
    double freedom = 0.0;
    for (const RetentionLine &line : lines) {
        squares += line.residual_squares;
        freedom += static_cast<double>(line.freedom());
    }
    if (freedom == 0.0) {
        return std::nullopt;
    }
    return Scatter{std::sqrt(squares / freedom), freedom};
}

prediction::Prediction forecast(const RetentionLine &line, const Scatter &scatter,
                                double fraction) {
    const double distance = fraction - line.mean_fraction;
    const double share = 1.0 + 1.0 / static_cast<double>(line.readings) +
                         distance * distance / line.fraction_squares;
    return {line.law.log_k_weak - line.law.slope * fraction, scatter.deviation * std::sqrt(share),
            scatter.freedom};
}

KInterval k_interval(const RetentionLine &line, const Scatter &scatter, double fraction) {
    const auto expected = forecast(line, scatter, fraction);
    return {std::pow(10.0, expected.location - expected.half_width()),
            std::pow(10.0, expected.location + expected.half_width())};
}

} // namespace cospot::resolve
