#include "model/matcher/retention_scale.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::matcher {

namespace {

constexpr double kSmallestRatio = 1e-3; // of k, RRT and r

} // namespace

Censoring censoring(Quantity quantity, double value) {
    if (quantity != Quantity::Rf) {
        return Censoring::none;
    }
    if (value <= kCensoredMargin) {
        return Censoring::at_start;
    }
    return value >= 1.0 - kCensoredMargin ? Censoring::at_front : Censoring::none;
}

double to_model_scale(Quantity quantity, double value) {
    switch (quantity) {
    case Quantity::Rf:
        return std::asin(std::sqrt(std::clamp(value, 0.0, 1.0)));
    case Quantity::k:
    case Quantity::RRT:
    case Quantity::r:
        return std::log10(std::max(value, kSmallestRatio));
    case Quantity::RI:
    case Quantity::tR:
        break;
    }
    return value;
}

double from_model_scale(Quantity quantity, double scaled) {
    switch (quantity) {
    case Quantity::Rf: {
        const double sine = std::sin(std::clamp(scaled, 0.0, std::numbers::pi / 2));
        return sine * sine;
    }
    case Quantity::k:
    case Quantity::RRT:
    case Quantity::r:
        return std::pow(10.0, scaled);
    case Quantity::RI:
    case Quantity::tR:
        break;
    }
    return scaled;
}

double scale_slope(Quantity quantity, double value) {
    switch (quantity) {
    case Quantity::Rf: {
        const double inside = std::clamp(value, kCensoredMargin, 1.0 - kCensoredMargin);
        return 0.5 / std::sqrt(inside * (1.0 - inside));
    }
    case Quantity::k:
    case Quantity::RRT:
    case Quantity::r:
        return 1.0 / (std::numbers::ln10 * std::max(value, kSmallestRatio));
    case Quantity::RI:
    case Quantity::tR:
        break;
    }
    return 1.0;
}

} // namespace cospot::matcher
