#include "resolve/retention_line.h"

#include "shared/error.h"

#include <cmath>
#include <numeric>
#include <set>

namespace cospot::resolve {

namespace {

constexpr double kVisibleBend = 0.05; // log10 k
constexpr double kSureErrors = 2.0;

/// A column of a design, made orthogonal to those before it (Gram and Schmidt), and its squares.
struct Term {
    std::vector<double> values;
    double squares = 0.0;

    double share_of(const std::vector<double> &column) const {
        return std::inner_product(values.begin(), values.end(), column.begin(), 0.0) / squares;
    }
};

std::vector<double> without(const std::vector<Term> &terms, std::vector<double> column) {
    for (const Term &term : terms) {
        const double share = term.share_of(column);
        for (std::size_t i = 0; i < column.size(); ++i) {
            column[i] -= share * term.values[i];
        }
    }
    return column;
}

double squares_of(const std::vector<double> &column) {
    return std::inner_product(column.begin(), column.end(), column.begin(), 0.0);
}

/// Whether a parabola leaves its chord visibly; the fractions count from the middle of the range in
/// units of half of it, so that the parabola's square term is the bend itself.
bool shows_bend(const std::vector<RetentionPoint> &points, double low, double high) {
    std::vector<std::vector<double>> powers(3);
    std::vector<double> log_k;
    for (const RetentionPoint &point : points) {
        const double x = (2.0 * point.fraction - low - high) / (high - low);
        powers[0].push_back(1.0);
        powers[1].push_back(x);
        powers[2].push_back(x * x);
        log_k.push_back(std::log10(point.k));
    }
    std::vector<Term> terms;
    for (const std::vector<double> &power : powers) {
        const std::vector<double> rest = without(terms, power);
        terms.push_back({rest, squares_of(rest)});
    }
    const double bend = std::abs(terms[2].share_of(log_k));
    if (bend <= kVisibleBend || points.size() == 3) {
        return bend > kVisibleBend;
    }
    const double variance =
        squares_of(without(terms, log_k)) / static_cast<double>(points.size() - 3);
    return bend > kSureErrors * std::sqrt(variance / terms[2].squares);
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
