#include "sensor.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio> // jpeglib.h needs it
#include <cstdlib>

#include <jpeglib.h>

namespace cospot::rendering {
namespace {

using plate_photo::Light;

double by_difficulty(Difficulty difficulty, double easy, double usual, double hard) {
    return difficulty == Difficulty::easy ? easy : difficulty == Difficulty::usual ? usual : hard;
}

std::vector<float> gaussian_weights(double sigma) {
    const int reach = std::max(1, static_cast<int>(std::ceil(3.0 * sigma)));
    std::vector<float> weights;
    double sum = 0.0;
    for (int k = -reach; k <= reach; ++k) {
        sum += std::exp(-0.5 * k * k / (sigma * sigma));
    }
    for (int k = -reach; k <= reach; ++k) {
        weights.push_back(static_cast<float>(std::exp(-0.5 * k * k / (sigma * sigma)) / sum));
    }
    return weights;
}

/// Weighted mean of pixels along one direction; what is beyond the rim counts as the rim.
Raster filtered(const Raster &from, const std::vector<float> &weights, double step_x,
                double step_y) {
    Raster to(from.width, from.height);
    const int reach = static_cast<int>(weights.size() / 2);
    std::vector<std::array<int, 2>> steps;
    for (int k = -reach; k <= reach; ++k) {
        steps.push_back(
            {static_cast<int>(std::lround(k * step_x)), static_cast<int>(std::lround(k * step_y))});
    }
    for (int y = 0; y < from.height; ++y) {
        for (int x = 0; x < from.width; ++x) {
            Colour sum;
            for (std::size_t k = 0; k < steps.size(); ++k) {
                const Colour &one = from.at(std::clamp(x + steps[k][0], 0, from.width - 1),
                                            std::clamp(y + steps[k][1], 0, from.height - 1));
                sum.r += weights[k] * one.r;
                sum.g += weights[k] * one.g;
                sum.b += weights[k] * one.b;
            }
            to.at(x, y) = sum;
        }
    }
    return to;
}

Raster blurred(const Raster &from, double sigma) {
    const std::vector<float> weights = gaussian_weights(sigma);
    return filtered(filtered(from, weights, 1.0, 0.0), weights, 0.0, 1.0);
}

/// Which colour a pixel of the mosaic sees: rows of red, green and of green, blue.
int channel_at(int x, int y) {
    return (y & 1) + (x & 1);
}

float channel_of(const Colour &colour, int channel) {
    return channel == 0 ? colour.r : channel == 1 ? colour.g : colour.b;
}

/// One reading a pixel, with the noise of electrons that come one by one and that of reading.
std::vector<float> readings(const Raster &light, const Exposure &exposure, Draws &draws) {
    std::vector<float> read(light.pixels.size());
    for (int y = 0; y < light.height; ++y) {
        for (int x = 0; x < light.width; ++x) {
            const double signal =
                exposure.gain * static_cast<double>(channel_of(light.at(x, y), channel_at(x, y)));
            const double electrons = std::max(0.0, signal) * exposure.full_electrons;
            const double noise =
                std::sqrt(electrons + std::pow(exposure.read_electrons, 2)) * draws.normal();
            const double value = (electrons + noise) / exposure.full_electrons;
            read[light.index(x, y)] = static_cast<float>(std::min(1.0, value));
        }
    }
    return read;
}

/// Fills in each colour with the mean of its readings among the nine around a pixel.
Raster demosaiced(const std::vector<float> &read, int width, int height) {
    Raster to(width, height);
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            std::array<float, 3> sums{};
            std::array<float, 3> counts{};
            for (int dy = -1; dy <= 1; ++dy) {
                for (int dx = -1; dx <= 1; ++dx) {
                    const int i = std::clamp(x + dx, 0, width - 1);
                    const int j = std::clamp(y + dy, 0, height - 1);
                    const auto channel = static_cast<std::size_t>(channel_at(i, j));
                    const bool own = dx == 0 && dy == 0;
                    // A pixel's own reading is all that counts for its colour.
                    const float weight = own ? 1000.0F : dx == 0 || dy == 0 ? 1.0F : 0.5F;
                    sums[channel] += weight * read[to.index(i, j)];
                    counts[channel] += weight;
                }
            }
            to.at(x, y) = {sums[0] / counts[0], sums[1] / counts[1], sums[2] / counts[2]};
        }
    }
    return to;
}

std::uint8_t coded(double linear, double tone) {
    const double x = std::clamp(linear, 0.0, 1.0);
    const double s = x <= 0.0031308 ? 12.92 * x : 1.055 * std::pow(x, 1.0 / 2.4) - 0.055;
    const double bent = s + tone * s * (1.0 - s) * (2.0 * s - 1.0);
    return static_cast<std::uint8_t>(std::lround(255.0 * std::clamp(bent, 0.0, 1.0)));
}

images::Image coded_image(const Raster &light, double tone) {
    std::vector<std::uint8_t> code(4097);
    for (std::size_t k = 0; k < code.size(); ++k) {
        code[k] = coded(std::pow(static_cast<double>(k) / 4096.0, 2), tone); // finer in the dark
    }
    const auto look_up = [&](float value) {
        const float root = std::sqrt(std::clamp(value, 0.0F, 1.0F));
        return code[static_cast<std::size_t>(std::lround(root * 4096.0F))];
    };
    images::Image image = images::black_image(light.width, light.height);
    for (std::size_t k = 0; k < light.pixels.size(); ++k) {
        image.rgb[3 * k] = look_up(light.pixels[k].r);
        image.rgb[3 * k + 1] = look_up(light.pixels[k].g);
        image.rgb[3 * k + 2] = look_up(light.pixels[k].b);
    }
    return image;
}

images::Image read_jpeg(const std::string &bytes) {
    jpeg_decompress_struct info{};
    jpeg_error_mgr errors{};
    info.err = jpeg_std_error(&errors); // it ends the program: these bytes are our own
    jpeg_create_decompress(&info);
    jpeg_mem_src(&info, reinterpret_cast<const unsigned char *>(bytes.data()), bytes.size());
    jpeg_read_header(&info, TRUE);
    info.out_color_space = JCS_RGB;
    jpeg_start_decompress(&info);
    images::Image image = images::black_image(static_cast<int>(info.output_width),
                                              static_cast<int>(info.output_height));
    while (info.output_scanline < info.output_height) {
        JSAMPROW row = &image.rgb[image.at(0, static_cast<int>(info.output_scanline))];
        jpeg_read_scanlines(&info, &row, 1);
    }
    jpeg_finish_decompress(&info);
    jpeg_destroy_decompress(&info);
    return image;
}

} // namespace

Exposure drawn_exposure(Light light, Difficulty difficulty, double layer, Draws &draws) {
    Exposure exposure;
    exposure.blur_px = draws.uniform(0.4, by_difficulty(difficulty, 0.7, 1.0, 1.6));
    if (draws.chance(by_difficulty(difficulty, 0.0, 0.1, 0.3))) {
        exposure.shake_px = draws.uniform(1.0, 4.0);
        exposure.shake_angle = draws.uniform(0.0, 3.1416);
    }
    const bool dark = light != Light::white;
    const double level = light == Light::white   ? draws.uniform(0.35, 0.8)
                         : light == Light::uv254 ? draws.uniform(0.15, 0.6)
                                                 : draws.uniform(0.03, 0.15);
    exposure.gain = level / layer;
    const double most = dark ? 4000.0 : 15000.0;
    const double least = by_difficulty(difficulty, 4000.0, 2500.0, 1000.0) * (dark ? 0.5 : 1.0);
    exposure.full_electrons = draws.evenly_in_logarithm(least, most);
    exposure.read_electrons = draws.uniform(2.0, 8.0);
    exposure.smoothing_px = draws.chance(0.5) ? draws.uniform(0.4, 0.9) : 0.0;
    exposure.sharpening = draws.chance(0.5) ? draws.uniform(0.2, 0.9) : 0.0;
    exposure.tone = draws.chance(0.5) ? draws.uniform(0.0, 0.35) : 0.0;
    const double worst = by_difficulty(difficulty, 85.0, 75.0, 60.0);
    exposure.quality = static_cast<int>(draws.uniform(worst, 95.99));
    return exposure;
}

images::Image exposed(Raster light, const Exposure &exposure, Draws &draws) {
    light = blurred(light, exposure.blur_px);
    if (exposure.shake_px > 0.0) {
        const auto count = static_cast<std::size_t>(2 * std::lround(0.5 * exposure.shake_px) + 1);
        const std::vector<float> even(count, 1.0F / static_cast<float>(count));
        light =
            filtered(light, even, std::cos(exposure.shake_angle), std::sin(exposure.shake_angle));
    }
    light = demosaiced(readings(light, exposure, draws), light.width, light.height);
    if (exposure.smoothing_px > 0.0) {
        light = blurred(light, exposure.smoothing_px);
    }
    if (exposure.sharpening > 0.0) {
        const Raster soft = blurred(light, 1.2);
        for (std::size_t k = 0; k < light.pixels.size(); ++k) {
            light.pixels[k] =
                light.pixels[k] + (light.pixels[k] - soft.pixels[k]) * exposure.sharpening;
        }
    }
    return read_jpeg(phone_jpeg(coded_image(light, exposure.tone), exposure.quality));
}

std::string phone_jpeg(const images::Image &image, int quality) {
    jpeg_compress_struct info{};
    jpeg_error_mgr errors{};
    info.err = jpeg_std_error(&errors);
    jpeg_create_compress(&info);
    unsigned char *bytes = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&info, &bytes, &size);
    info.image_width = static_cast<JDIMENSION>(image.width);
    info.image_height = static_cast<JDIMENSION>(image.height);
    info.input_components = 3;
    info.in_color_space = JCS_RGB;
    jpeg_set_defaults(&info); // with half the colour resolution
    jpeg_set_quality(&info, quality, TRUE);
    jpeg_start_compress(&info, TRUE);
    while (info.next_scanline < info.image_height) {
        const std::size_t at = image.at(0, static_cast<int>(info.next_scanline));
        JSAMPROW row = const_cast<JSAMPROW>(&image.rgb[at]); // it is only read
        jpeg_write_scanlines(&info, &row, 1);
    }
    jpeg_finish_compress(&info);
    jpeg_destroy_compress(&info);
    std::string text(reinterpret_cast<const char *>(bytes), size);
    std::free(bytes);
    return text;
}

} // namespace cospot::rendering
