#include "plate_photo/layer_light.h"

#include "shared/robust.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace cospot::plate_photo {

namespace {

constexpr double kCellsPerMm = 4.0;
constexpr double kBlocksPerMm = 1.0;
constexpr double kMedianRadiusMm = 10.0; ///< over twice the radius of a large spot
constexpr int kMostSamplesAcross = 9;    ///< of a square of the median
constexpr double kLeastShareLeft = 0.15; ///< of a square, that no spot covers
constexpr double kStandsOut = 3.0;       ///< deviations
constexpr double kLeastStandsOut = 0.015;
constexpr int kMedianRounds = 3;
/// Light below which a camera tells no shares: so much is added to the layer's light.
constexpr double kDarkLight = 0.003;
constexpr int kSurfaceTerms = 10;
constexpr int kSurfaceRounds = 8;
constexpr std::size_t kMostSurfacePoints = 6000;

using Terms = Eigen::Matrix<double, kSurfaceTerms, 1>;

std::array<Field, 3> light_of(const FlatPlate &plate, double cells_per_mm) {
    const auto cells = [&](int pixels) {
        return std::max(1, static_cast<int>(pixels / plate.pixels_per_mm * cells_per_mm));
    };
    const int width = cells(plate.image.width);
    const int height = cells(plate.image.height);
    std::array<float, 256> linear{};
    for (int value = 0; value < 256; ++value) {
        linear[static_cast<std::size_t>(value)] = static_cast<float>(linear_light(value));
    }
    std::array<Field, 3> light;
    light.fill(empty_field(width, height, cells_per_mm));
    std::vector<float> pixels(light[0].values.size());
    std::vector<int> columns;
    for (int x = 0; x < plate.image.width; ++x) {
        columns.push_back(light[0].column_at((x + 0.5) / plate.pixels_per_mm));
    }
    for (int y = 0; y < plate.image.height; ++y) {
        const int row = light[0].row_at((plate.image.height - y - 0.5) / plate.pixels_per_mm);
        const std::uint8_t *pixel = &plate.image.rgb[plate.image.at(0, y)];
        for (const int column : columns) {
            const auto cell = static_cast<std::size_t>(row) * static_cast<std::size_t>(width) +
                              static_cast<std::size_t>(column);
            pixels[cell] += 1.0F;
            for (Field &colour : light) {
                colour.values[cell] += linear[*pixel++];
            }
        }
    }
    for (Field &colour : light) {
        for (std::size_t i = 0; i < pixels.size(); ++i) {
            colour.values[i] /= std::max(1.0F, pixels[i]);
        }
    }
    return light;
}

/// Means over blocks of about a millimetre, as logarithms.
Field blocks_of(const Field &light) {
    const int side = std::max(1, static_cast<int>(std::lround(light.cells_per_mm / kBlocksPerMm)));
    Field blocks = empty_field((light.width + side - 1) / side, (light.height + side - 1) / side,
                               light.cells_per_mm / side);
    for (int y = 0; y < blocks.height; ++y) {
        for (int x = 0; x < blocks.width; ++x) {
            double sum = 0.0;
            int cells = 0;
            for (int v = y * side; v < std::min((y + 1) * side, light.height); ++v) {
                for (int u = x * side; u < std::min((x + 1) * side, light.width); ++u) {
                    sum += light.at(u, v);
                    ++cells;
                }
            }
            blocks.at(x, y) = static_cast<float>(std::log(sum / cells + kDarkLight));
        }
    }
    return blocks;
}

Terms terms_at(const Field &blocks, int x, int y) {
    const double u = 2.0 * (x + 0.5) / blocks.width - 1.0;
    const double v = 2.0 * (y + 0.5) / blocks.height - 1.0;
    Terms terms;
    terms << 1.0, u, v, u * u, u * v, v * v, u * u * u, u * u * v, u * v * v, v * v * v;
    return terms;
}

/// Least squares with the weights of Tukey's biweight (beaton1974, from memory).
Terms robust_surface(const Field &blocks) {
    std::vector<Terms> terms;
    std::vector<double> values;
    const std::size_t step = 1 + blocks.values.size() / kMostSurfacePoints;
    for (std::size_t i = 0; i < blocks.values.size(); i += step) {
        const auto width = static_cast<std::size_t>(blocks.width);
        terms.push_back(terms_at(blocks, static_cast<int>(i % width), static_cast<int>(i / width)));
        values.push_back(blocks.values[i]);
    }
    Terms surface = Terms::Zero();
    surface(0) = median(values);
    std::vector<double> left(values.size());
    for (int round = 0; round < kSurfaceRounds; ++round) {
        for (std::size_t i = 0; i < values.size(); ++i) {
            left[i] = values[i] - surface.dot(terms[i]);
        }
        const double reach = std::max(1e-6, 4.685 * deviation_about_zero(left));
        Eigen::Matrix<double, kSurfaceTerms, kSurfaceTerms> normal =
            1e-6 * decltype(normal)::Identity();
        Terms right = Terms::Zero();
        for (std::size_t i = 0; i < values.size(); ++i) {
            const double share = left[i] / reach;
            const double weight = std::abs(share) < 1.0 ? std::pow(1.0 - share * share, 2) : 0.0;
            normal += weight * terms[i] * terms[i].transpose();
            right += weight * values[i] * terms[i];
        }
        surface = normal.ldlt().solve(right);
    }
    return surface;
}

/// The median over squares around each block of what is `free`, or of all where little is.
Field median_around(const Field &blocks, const std::vector<char> &free) {
    const int radius = static_cast<int>(std::lround(kMedianRadiusMm * blocks.cells_per_mm));
    const int step = std::max(1, (2 * radius + kMostSamplesAcross) / kMostSamplesAcross);
    Field medians = blocks;
    std::vector<float> around;
    std::vector<float> all;
    for (int y = 0; y < blocks.height; ++y) {
        for (int x = 0; x < blocks.width; ++x) {
            around.clear();
            all.clear();
            for (int v = y - radius; v <= y + radius; v += step) {
                for (int u = x - radius; u <= x + radius; u += step) {
                    if (u < 0 || v < 0 || u >= blocks.width || v >= blocks.height) {
                        continue;
                    }
                    const float value = blocks.at(u, v);
                    all.push_back(value);
                    if (free[static_cast<std::size_t>(v * blocks.width + u)] != 0) {
                        around.push_back(value);
                    }
                }
            }
            const bool enough = static_cast<double>(around.size()) >=
                                kLeastShareLeft * static_cast<double>(all.size());
            std::vector<float> &values = enough ? around : all;
            const auto middle = values.begin() + std::ssize(values) / 2;
            std::nth_element(values.begin(), middle, values.end());
            medians.at(x, y) = *middle;
        }
    }
    return medians;
}

/// 0 where a block, or one beside it, stands out from the layer.
std::vector<char> free_blocks(const Field &blocks, const Field &layer) {
    Field left = blocks;
    for (std::size_t i = 0; i < left.values.size(); ++i) {
        left.values[i] -= layer.values[i];
    }
    const double limit = std::max(kLeastStandsOut, kStandsOut * deviation_of(left));
    std::vector<char> free(left.values.size(), 1);
    for (int y = 0; y < left.height; ++y) {
        for (int x = 0; x < left.width; ++x) {
            if (std::abs(left.at(x, y)) <= limit) {
                continue;
            }
            for (int v = std::max(0, y - 1); v <= std::min(left.height - 1, y + 1); ++v) {
                for (int u = std::max(0, x - 1); u <= std::min(left.width - 1, x + 1); ++u) {
                    free[static_cast<std::size_t>(v * left.width + u)] = 0;
                }
            }
        }
    }
    return free;
}

/// The layer's own light, as logarithms, in blocks.
Field layer_of(Field blocks) {
    const Terms surface = robust_surface(blocks);
    for (int y = 0; y < blocks.height; ++y) {
        for (int x = 0; x < blocks.width; ++x) {
            blocks.at(x, y) -= static_cast<float>(surface.dot(terms_at(blocks, x, y)));
        }
    }
    std::vector<char> free(blocks.values.size(), 1);
    Field layer;
    for (int round = 0; round < kMedianRounds; ++round) {
        layer = median_around(blocks, free);
        free = free_blocks(blocks, layer);
    }
    for (int y = 0; y < layer.height; ++y) {
        for (int x = 0; x < layer.width; ++x) {
            layer.at(x, y) += static_cast<float>(surface.dot(terms_at(layer, x, y)));
        }
    }
    return layer;
}

} // namespace

double linear_light(int srgb) {
    const double value = srgb / 255.0;
    return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

LayerLight layer_light(const FlatPlate &plate) {
    LayerLight result;
    result.light = light_of(plate, std::min(kCellsPerMm, plate.pixels_per_mm));
    for (std::size_t c = 0; c < 3; ++c) {
        const Field &light = result.light[c];
        Field &background = result.background[c];
        background = layer_of(blocks_of(light));
        for (float &value : background.values) {
            value = std::exp(value);
        }
        Field &change = result.change[c];
        change = light;
        for (int y = 0; y < light.height; ++y) {
            for (int x = 0; x < light.width; ++x) {
                const double layer = value_at(background, light.mm_of(x), light.mm_of(y));
                change.at(x, y) = static_cast<float>((light.at(x, y) + kDarkLight) / layer - 1.0);
            }
        }
    }
    return result;
}

} // namespace cospot::plate_photo
