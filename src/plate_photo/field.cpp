#include "plate_photo/field.h"

#include "shared/robust.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace cospot::plate_photo {

namespace {

constexpr double kMostUneven = 1.5;              ///< more is not noise, but what lies there
constexpr std::size_t kMostForDeviation = 20000; ///< cells that tell a deviation well enough

/// The means of a line of `count` values that lie `step` apart; at its ends over what is there.
void average_line(const float *from, float *to, int count, std::size_t step, int radius) {
    const auto value = [&](int i) { return from[static_cast<std::size_t>(i) * step]; };
    double sum = 0.0;
    for (int i = 0; i < std::min(radius, count); ++i) {
        sum += value(i);
    }
    for (int i = 0; i < count; ++i) {
        if (i + radius < count) {
            sum += value(i + radius);
        }
        if (i - radius - 1 >= 0) {
            sum -= value(i - radius - 1);
        }
        const int cells = std::min(i + radius, count - 1) - std::max(i - radius, 0) + 1;
        to[static_cast<std::size_t>(i) * step] = static_cast<float>(sum / cells);
    }
}

void average(Field &field, int radius) {
    Field rows = field;
    const auto width = static_cast<std::size_t>(field.width);
    for (std::size_t y = 0; y < static_cast<std::size_t>(field.height); ++y) {
        average_line(&field.values[y * width], &rows.values[y * width], field.width, 1, radius);
    }
    for (std::size_t x = 0; x < width; ++x) {
        average_line(&rows.values[x], &field.values[x], field.height, width, radius);
    }
}

std::vector<std::pair<int, int>> disc(double radius) {
    std::vector<std::pair<int, int>> cells;
    const int reach = static_cast<int>(radius);
    for (int y = -reach; y <= reach; ++y) {
        for (int x = -reach; x <= reach; ++x) {
            if (x * x + y * y <= radius * radius) {
                cells.emplace_back(x, y);
            }
        }
    }
    return cells;
}

template <typename Better>
Field extreme_over(const Field &field, const std::vector<std::pair<int, int>> &cells,
                   Better better) {
    Field result = field;
    for (const auto &[dx, dy] : cells) {
        const int left = std::max(0, -dx);
        const int right = std::min(field.width, field.width - dx);
        for (int y = std::max(0, -dy); y < std::min(field.height, field.height - dy); ++y) {
            for (int x = left; x < right; ++x) {
                result.at(x, y) = better(result.at(x, y), field.at(x + dx, y + dy));
            }
        }
    }
    return result;
}

/// As if the upper half were that of normal values.
double upper_deviation(std::vector<double> values) {
    constexpr double kQuartile = 0.6745; // of the standard normal distribution
    const auto middle = values.begin() + std::ssize(values) / 2;
    const auto upper = values.begin() + 3 * std::ssize(values) / 4;
    std::nth_element(values.begin(), upper, values.end());
    const double quartile = *upper;
    std::nth_element(values.begin(), middle, upper);
    return (quartile - *middle) / kQuartile;
}

} // namespace

int Field::column_at(double x_mm) const {
    return std::clamp(static_cast<int>(std::floor(x_mm * cells_per_mm)), 0, width - 1);
}

int Field::row_at(double y_mm) const {
    return std::clamp(static_cast<int>(std::floor(y_mm * cells_per_mm)), 0, height - 1);
}

Field empty_field(int width, int height, double cells_per_mm) {
    Field field{.width = width, .height = height, .cells_per_mm = cells_per_mm, .values = {}};
    field.values.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    return field;
}

double value_at(const Field &field, double x_mm, double y_mm) {
    const double x = std::clamp(x_mm * field.cells_per_mm - 0.5, 0.0, field.width - 1.0);
    const double y = std::clamp(y_mm * field.cells_per_mm - 0.5, 0.0, field.height - 1.0);
    const int left = static_cast<int>(x);
    const int below = static_cast<int>(y);
    const int right = std::min(left + 1, field.width - 1);
    const int above = std::min(below + 1, field.height - 1);
    const double low = std::lerp(field.at(left, below), field.at(right, below), x - left);
    const double high = std::lerp(field.at(left, above), field.at(right, above), x - left);
    return std::lerp(low, high, y - below);
}

Field smoothed(const Field &field, int radius) {
    Field result = field;
    average(result, radius);
    average(result, radius);
    return result;
}

Field opened(const Field &field, double diameter_mm) {
    const auto cells = disc(0.5 * diameter_mm * field.cells_per_mm);
    const Field low = extreme_over(field, cells, [](float a, float b) { return std::min(a, b); });
    return extreme_over(low, cells, [](float a, float b) { return std::max(a, b); });
}

Field deviations_in(const Field &field, double side_mm) {
    const double all = upper_deviation({field.values.begin(), field.values.end()});
    const int side = std::max(1, static_cast<int>(side_mm * field.cells_per_mm));
    Field result = empty_field((field.width + side - 1) / side, (field.height + side - 1) / side,
                               field.cells_per_mm / side);
    std::vector<double> values;
    for (int y = 0; y < result.height; ++y) {
        for (int x = 0; x < result.width; ++x) {
            values.clear();
            for (int v = y * side; v < std::min((y + 1) * side, field.height); v += 2) {
                for (int u = x * side; u < std::min((x + 1) * side, field.width); u += 2) {
                    values.push_back(field.at(u, v));
                }
            }
            result.at(x, y) =
                static_cast<float>(std::clamp(upper_deviation(values), all, kMostUneven * all));
        }
    }
    return result;
}

double deviation_of(const Field &field) {
    const std::size_t step = 1 + field.values.size() / kMostForDeviation;
    std::vector<double> some;
    for (std::size_t i = 0; i < field.values.size(); i += step) {
        some.push_back(field.values[i]);
    }
    return deviation_about_median(std::move(some));
}

} // namespace cospot::plate_photo
