#pragma once

#include "chromatogram.h"
#include "colour.h"
#include "draws.h"

#include "images/image.h"

#include <string>

namespace cospot::rendering {

/// What a camera makes of the light on its sensor.
struct Exposure {
    double blur_px = 0.6;           ///< of the lens, standard deviation
    double shake_px = 0.0;          ///< length of a blur in one direction
    double shake_angle = 0.0;       ///< radians
    double gain = 1.0;              ///< light to the full scale of the sensor
    double full_electrons = 5000.0; ///< at full scale: shot noise
    double read_electrons = 4.0;    ///< standard deviation of the read noise
    double smoothing_px = 0.0;      ///< of the camera's noise reduction
    double sharpening = 0.0;        ///< of the camera's unsharp mask
    double tone = 0.0;              ///< bend of its S-shaped tone curve; 0: plain sRGB
    int quality = 85;               ///< of the JPEG
};

/// `layer`: light of the clean layer's brightest channel in the middle of the plate.
[[nodiscard]] Exposure drawn_exposure(plate_photo::Light light, Difficulty difficulty, double layer,
                                      Draws &draws);

/// The picture as a file would hold it: blurred, with noise, behind a mosaic of colour filters that
/// is filled in linearly, coded as sRGB (IEC 61966-2-1) and as a JPEG with half the colour
/// resolution, as phones write.
[[nodiscard]] images::Image exposed(Raster light, const Exposure &exposure, Draws &draws);

/// As baseline JPEG with half the colour resolution.
[[nodiscard]] std::string phone_jpeg(const images::Image &image, int quality);

} // namespace cospot::rendering
