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
constexpr int kSamplesAcross = 9;        ///< of a square of the median; odd
constexpr double kLeastShareLeft = 0.15; ///< of a square, that no spot covers
constexpr double kStandsOut = 3.0;       ///< deviations
constexpr double kLeastStandsOut = 0.015;
constexpr int kMedianRounds = 3; ///< what slopes leave beside a shadow's edge, the next round takes
constexpr double kLeastOwnSide =
    0.25; ///< of a square, that a shadow fills; spots and fingers do not
constexpr double kFirstReach = 0.05;
constexpr double kOwnSideReach = 1.5; ///< in what stands out
/// Light below which a camera tells no shares: so much is added to the layer's light.
constexpr double kDarkLight = 0.006;
constexpr double kSharpEdge = 0.025; ///< bend of the layer, that soft light does not make
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

/// The values of a square around a block, of those that are `free`, or of all where few are. Each
/// comes with the one that lies opposite: so most of them lie on the block's own side of any
/// straight edge, at the edges of the plate too.
void take_square(const Field &blocks, const std::vector<char> &free, int x, int y, int step,
                 std::vector<float> &values) {
    const int most = kSamplesAcross / 2;
    const int across = std::min({most, x / step, (blocks.width - 1 - x) / step}) * step;
    const int along = std::min({most, y / step, (blocks.height - 1 - y) / step}) * step;
    const auto take = [&](bool all) {
        values.clear();
        for (int v = y - along; v <= y + along; v += step) {
            for (int u = x - across; u <= x + across; u += step) {
                if (all || free[static_cast<std::size_t>(v * blocks.width + u)] != 0) {
                    values.push_back(blocks.at(u, v));
                }
            }
        }
    };
    take(false);
    const int cells = (2 * across / step + 1) * (2 * along / step + 1);
    if (static_cast<double>(values.size()) < kLeastShareLeft * cells) {
        take(true);
    }
}

/// Keeps the values within `reach` of `own`, where they are more than a few: those of the block's
/// own side of a shadow, however narrow. A spot is too small, and too uneven, for that.
void keep_own_side(std::vector<float> &values, float own, double reach) {
    const auto end = std::partition(values.begin(), values.end(),
                                    [&](float value) { return std::abs(value - own) <= reach; });
    if (static_cast<double>(end - values.begin()) >=
        kLeastOwnSide * kSamplesAcross * kSamplesAcross) {
        values.erase(end, values.end());
    }
}

Field median_around(const Field &blocks, const std::vector<char> &free, double reach) {
    const double radius = kMedianRadiusMm * blocks.cells_per_mm;
    const int step = std::max(1, static_cast<int>(std::lround(2.0 * radius / kSamplesAcross)));
    Field medians = blocks;
    std::vector<float> values;
    for (int y = 0; y < blocks.height; ++y) {
        for (int x = 0; x < blocks.width; ++x) {
            take_square(blocks, free, x, y, step, values);
            keep_own_side(values, blocks.at(x, y), reach);
            const auto middle = values.begin() + std::ssize(values) / 2;
            std::nth_element(values.begin(), middle, values.end());
            medians.at(x, y) = *middle;
        }
    }
    return medians;
}

/// How far a block has to be off the layer to stand out from it.
double limit_of(const Field &left) {
    return std::max(kLeastStandsOut, kStandsOut * deviation_of(left));
}

Field difference(const Field &blocks, const Field &layer) {
    Field left = blocks;
    for (std::size_t i = 0; i < left.values.size(); ++i) {
        left.values[i] -= layer.values[i];
    }
    return left;
}

/// 0 where a block stands out from the layer.
std::vector<char> free_blocks(const Field &left) {
    const double limit = limit_of(left);
    std::vector<char> free;
    for (const float value : left.values) {
        free.push_back(std::abs(value) <= limit ? 1 : 0);
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
    Field layer = median_around(blocks, free, kFirstReach);
    for (int round = 1; round < kMedianRounds; ++round) {
        const Field left = difference(blocks, layer);
        free = free_blocks(left);
        const Field more = median_around(left, free, kOwnSideReach * limit_of(left));
        for (std::size_t i = 0; i < layer.values.size(); ++i) {
            layer.values[i] += more.values[i];
        }
    }
    for (int y = 0; y < layer.height; ++y) {
        for (int x = 0; x < layer.width; ++x) {
            layer.at(x, y) += static_cast<float>(surface.dot(terms_at(layer, x, y)));
        }
    }
    return layer;
}

/// The extreme of each block and those beside it.
template <typename Better> Field extreme_beside(const Field &blocks, Better better) {
    Field extremes = blocks;
    for (int y = 0; y < blocks.height; ++y) {
        for (int x = 0; x < blocks.width; ++x) {
            for (int v = std::max(0, y - 1); v <= std::min(blocks.height - 1, y + 1); ++v) {
                for (int u = std::max(0, x - 1); u <= std::min(blocks.width - 1, x + 1); ++u) {
                    extremes.at(x, y) = better(extremes.at(x, y), blocks.at(u, v));
                }
            }
        }
    }
    return extremes;
}

/// How far a block is off the mean of the blocks on opposite sides, in shares of its light: slopes,
/// however steep, are not.
Field bends_of(const Field &blocks) {
    Field bends = empty_field(blocks.width, blocks.height, blocks.cells_per_mm);
    for (int y = 0; y < blocks.height; ++y) {
        for (int x = 0; x < blocks.width; ++x) {
            const float here = blocks.at(x, y);
            float bend = 0.0F;
            if (x > 0 && x + 1 < blocks.width) {
                bend = std::abs(0.5F * (blocks.at(x - 1, y) + blocks.at(x + 1, y)) - here);
            }
            if (y > 0 && y + 1 < blocks.height) {
                bend = std::max(
                    bend, std::abs(0.5F * (blocks.at(x, y - 1) + blocks.at(x, y + 1)) - here));
            }
            bends.at(x, y) = bend / here;
        }
    }
    return bends;
}

/// Light over the layer's own, less 1. At the edge of a shadow any light between those of both
/// sides may be the layer's own.
Field change_of(const Field &light, const Field &background) {
    const auto lesser = [](float a, float b) { return std::min(a, b); };
    const auto greater = [](float a, float b) { return std::max(a, b); };
    const Field least = extreme_beside(background, lesser);
    const Field most = extreme_beside(background, greater);
    const Field bend = extreme_beside(bends_of(background), greater);
    Field change = light;
    for (int y = 0; y < light.height; ++y) {
        for (int x = 0; x < light.width; ++x) {
            const double x_mm = light.mm_of(x);
            const double y_mm = light.mm_of(y);
            const double here = light.at(x, y) + kDarkLight;
            const int column = background.column_at(x_mm);
            const int row = background.row_at(y_mm);
            const double layer =
                bend.at(column, row) > kSharpEdge
                    ? std::clamp<double>(here, least.at(column, row), most.at(column, row))
                    : value_at(background, x_mm, y_mm);
            change.at(x, y) = static_cast<float>(here / layer - 1.0);
        }
    }
    return change;
}

} // namespace

double linear_light(int srgb) {
    const double value = srgb / 255.0;
    return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

LayerLight layer_light(const FlatPlate &plate) {
    LayerLight result;
    const double pixels_a_cell = std::max(1.0, std::round(plate.pixels_per_mm / kCellsPerMm));
    result.light = light_of(plate, plate.pixels_per_mm / pixels_a_cell);
    for (std::size_t c = 0; c < 3; ++c) {
        const Field &light = result.light[c];
        Field &background = result.background[c];
        background = layer_of(blocks_of(light));
        for (float &value : background.values) {
            value = std::exp(value);
        }
        result.change[c] = change_of(light, background);
    }
    return result;
}

} // namespace cospot::plate_photo
