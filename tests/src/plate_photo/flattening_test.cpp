#include "plate_photo/flattening.h"

#include "plate_photo/homography.h"
#include "plate_photo/lens.h"
#include "plate_photo/rectangle_shape.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace cospot::plate_photo {
namespace {

using images::Image;

constexpr Corners kTilted{Place{210.3, 120.8}, Place{610.5, 90.2}, Place{700.1, 560.4},
                          Place{140.6, 520.7}};

/// A pinhole camera looks at the middle of a plate that is turned about all three axes.
Corners photographed(double width, double height, double tilt, double yaw, double turn,
                     double focal_length_px, Place centre) {
    Corners corners;
    const double farther = 4.0 * std::max(width, height);
    for (std::size_t i = 0; i < 4; ++i) {
        const double x0 = (i == 1 || i == 2 ? 0.5 : -0.5) * width;
        const double y0 = (i >= 2 ? 0.5 : -0.5) * height;
        const double x1 = x0 * std::cos(turn) - y0 * std::sin(turn);
        const double y1 = x0 * std::sin(turn) + y0 * std::cos(turn);
        const double x2 = x1 * std::cos(yaw);
        const double z2 = x1 * std::sin(yaw);
        const double y3 = y1 * std::cos(tilt) - z2 * std::sin(tilt);
        const double z3 = y1 * std::sin(tilt) + z2 * std::cos(tilt);
        corners[i] = {centre.x + focal_length_px * x2 / (farther + z3),
                      centre.y + focal_length_px * y3 / (farther + z3)};
    }
    return corners;
}

double degrees(double value) {
    return value * std::numbers::pi / 180.0;
}

/// Stripes of 10 mm across a plate of 50 x 100 mm, dark below, in a photo of the corners.
Image striped(const Outline &outline, int width, int height) {
    Image photo = images::black_image(width, height);
    const Homography map =
        homography(straightened_corners(outline.lens, outline.corners),
                   {Place{0.0, 0.0}, Place{50.0, 0.0}, Place{50.0, 100.0}, Place{0.0, 100.0}});
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            const Place mm = mapped(map, straightened(outline.lens, {x + 0.5, y + 0.5}));
            const bool stripe = static_cast<int>(std::floor(mm.y / 10.0)) % 2 != 0;
            photo.rgb[photo.at(x, y)] = stripe ? 200 : 50;
            photo.rgb[photo.at(x, y) + 1] =
                static_cast<std::uint8_t>(std::clamp(mm.x * 4, 0., 255.));
        }
    }
    return photo;
}

// Source: hartley2004, section 2.4.2 (cross-ratio of four points on a line is projectively
// invariant), from memory; numbers invented.
TEST(Homography, KeepsCrossRatios) {
    const Homography map =
        homography({Place{0, 0}, Place{50, 0}, Place{50, 100}, Place{0, 100}}, kTilted);
    const Place origin{3.0, 95.0};
    const auto along = [&](double t) {
        return mapped(map, {origin.x + 40.0 * t, origin.y - 80.0 * t});
    };
    const Place a = along(0.0);
    const Place b = along(0.25);
    const Place c = along(0.6);
    const Place d = along(1.0);
    const double ratio = distance(a, c) * distance(b, d) / (distance(b, c) * distance(a, d));
    EXPECT_NEAR(ratio, 0.6 * 0.75 / (0.35 * 1.0), 1e-9);
    // It is not affine: lengths on the line are not in proportion.
    EXPECT_GT(std::abs(distance(a, b) / distance(a, d) - 0.25), 0.005);
}

TEST(Homography, TakesEachCornerToItsOwn) {
    const Corners square{Place{0, 0}, Place{1, 0}, Place{1, 1}, Place{0, 1}};
    const Homography map = homography(square, kTilted);
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_LT(distance(mapped(map, square[i]), kTilted[i]), 1e-9);
    }
    EXPECT_THROW((void)homography({Place{0, 0}, Place{1, 1}, Place{2, 2}, Place{0, 1}}, square),
                 std::invalid_argument);
}

// Source: hartley2004, section 2.3: the diagonals of a square meet in the image of its centre, from
// memory; numbers invented.
TEST(Homography, KeepsWhereDiagonalsMeet) {
    const Homography map =
        homography({Place{0, 0}, Place{1, 0}, Place{1, 1}, Place{0, 1}}, kTilted);
    const Place centre = mapped(map, {0.5, 0.5});
    for (const std::size_t i : {0U, 1U}) {
        const Place a = kTilted[i];
        const Place b = kTilted[i + 2];
        EXPECT_NEAR((b.x - a.x) * (centre.y - a.y) - (b.y - a.y) * (centre.x - a.x), 0.0, 1e-6);
    }
}

TEST(Lens, UndoesWhatItDoes) {
    Lens lens = lens_of(4000, 3000);
    for (const double radial : {-0.06, -0.03, 0.0, 0.04}) {
        lens.radial = radial;
        for (const Place place :
             {Place{2000, 1500}, Place{0, 0}, Place{3900, 200}, Place{2000, 1501}}) {
            EXPECT_LT(distance(straightened(lens, seen(lens, place)), place), 1e-6);
        }
    }
}

// Source: zhanghe2007 (equations 11 to 21), from memory; the camera's image is calculated here by
// another way, by turning the plate in space. Numbers invented.
TEST(RectangleShape, IsThatOfThePlateInSpaceWhereBothVanishingPointsAreSeen) {
    const Place centre{2000, 1500};
    for (const double focal_length_px : {2300.0, 3000.0, 5000.0}) {
        const Corners corners =
            photographed(50, 100, degrees(25), degrees(20), degrees(8), focal_length_px, centre);
        EXPECT_NEAR(width_over_height(corners, centre, 2500.0, 0.3), 0.5, 1e-6);
    }
}

TEST(RectangleShape, IsCloseWhereOnlyOneVanishingPointIsSeen) {
    const Place centre{2000, 1500};
    const Corners corners = photographed(50, 100, degrees(30), 0.0, 0.0, 3200.0, centre);
    EXPECT_NEAR(width_over_height(corners, centre, 2500.0, 1.0), 0.5, 0.01);
    // The lengths of the edges are far off.
    const double by_edges = (distance(corners[0], corners[1]) + distance(corners[2], corners[3])) /
                            (distance(corners[1], corners[2]) + distance(corners[3], corners[0]));
    EXPECT_GT(by_edges, 0.55);
    const Corners straight = photographed(200, 200, 0.0, 0.0, degrees(5), 3200.0, centre);
    EXPECT_NEAR(width_over_height(straight, centre, 2500.0, 1.0), 1.0, 1e-6);
}

TEST(Flattening, PutsStripesWhereTheyAreOnThePlate) {
    for (const double radial : {0.0, -0.03}) {
        Outline outline{kTilted, lens_of(800, 640), 0.0};
        outline.lens.radial = radial;
        const FlatPlate plate =
            flatten(striped(outline, 800, 640), outline, PlateSize{50.0, 100.0});
        EXPECT_FALSE(plate.size_assumed);
        const Image &flat = plate.image;
        EXPECT_NEAR(flat.height, 100.0 * plate.pixels_per_mm, 0.01);
        EXPECT_NEAR(flat.width, 50.0 * plate.pixels_per_mm, 1.0);
        for (int y_mm = 5; y_mm < 100; y_mm += 10) {
            const int y = static_cast<int>(y_mm * plate.pixels_per_mm);
            const int x = flat.width / 3;
            EXPECT_EQ(flat.rgb[flat.at(x, y)], y_mm / 10 % 2 == 0 ? 50 : 200) << y_mm;
            EXPECT_NEAR(flat.rgb[flat.at(x, y) + 1], 4 * 50 / 3, 2);
        }
    }
}

// A change of sharp stripes is met to a tenth of a millimetre.
TEST(Flattening, MeetsAnEdgeOnThePlate) {
    const Outline outline{kTilted, lens_of(800, 640), 0.0};
    const FlatPlate plate = flatten(striped(outline, 800, 640), outline, PlateSize{50.0, 100.0});
    const Image &flat = plate.image;
    for (const int x : {5, flat.width / 2, flat.width - 6}) {
        const double down_px = 50.0 * plate.pixels_per_mm;
        double above = 0.0;
        for (int y = static_cast<int>(down_px) - 8; y < static_cast<int>(down_px) + 8; ++y) {
            above += (200.0 - flat.rgb[flat.at(x, y)]) / 150.0;
        }
        EXPECT_NEAR(std::floor(down_px) - 8 + above, down_px, 0.1 * plate.pixels_per_mm);
    }
}

TEST(Flattening, AveragesAreasOfALargePhoto) {
    const Corners corners{Place{100, 100}, Place{3100, 100}, Place{3100, 3100}, Place{100, 3100}};
    Image photo = images::black_image(3200, 3200);
    for (std::size_t i = 0; i < photo.rgb.size(); ++i) {
        photo.rgb[i] = i / 3 % 2 == 0 ? 0 : 200; // columns of one pixel
    }
    const FlatPlate plate = flatten(photo, corners, PlateSize{100.0, 100.0});
    EXPECT_LE(plate.image.rgb.size(), 3 * 2'500'000U);
    EXPECT_GT(plate.image.rgb.size(), 3 * 2'400'000U);
    EXPECT_NEAR(plate.image.rgb[plate.image.at(700, 700)], 100, 60);
}

TEST(Flattening, AssumesAHeightWhereNoSizeIsGiven) {
    const Place centre{400, 320};
    const Corners corners = photographed(50, 100, degrees(25), degrees(20), 0.0, 600.0, centre);
    const FlatPlate plate = flatten(images::black_image(800, 640), corners, std::nullopt);
    EXPECT_TRUE(plate.size_assumed);
    EXPECT_EQ(plate.size.height_mm, kAssumedHeightMm);
    EXPECT_NEAR(plate.size.width_mm, 50.0, 2.0);
}

TEST(Flattening, ShowsPlacesOfThePlateInThePhoto) {
    Outline outline{kTilted, lens_of(800, 640), 0.0};
    outline.lens.radial = -0.02;
    const PlateSize size{50.0, 100.0};
    EXPECT_LT(distance(on_photo(outline, size, 0.0, 100.0), kTilted[0]), 1e-6);
    EXPECT_LT(distance(on_photo(outline, size, 50.0, 0.0), kTilted[2]), 1e-6);
}

std::string refusal(const Corners &corners) {
    try {
        (void)flatten(images::black_image(800, 640), corners, std::nullopt);
    } catch (const InputError &error) {
        EXPECT_EQ(error.where().column, "--corners");
        return error.what();
    }
    return "taken";
}

TEST(Flattening, RefusesCornersThatAreNoneOfAPlate) {
    EXPECT_EQ(refusal(kTilted), "taken");
    Corners outside = kTilted;
    outside[1] = {900.0, 90.0};
    EXPECT_NE(refusal(outside).find("found the upper right corner at 900.0, 90.0; expected a place "
                                    "in the photo of 800 x 640 pixels"),
              std::string::npos);
    EXPECT_NE(refusal({kTilted[1], kTilted[0], kTilted[2], kTilted[3]}).find("in this order"),
              std::string::npos);
    Corners dented = kTilted;
    dented[2] = {300.0, 250.0};
    EXPECT_NE(refusal(dented).find("the lower right one"), std::string::npos);
    EXPECT_NE(refusal({Place{10, 10}, Place{20, 10}, Place{20, 300}, Place{10, 300}})
                  .find("10.0 pixels from the upper left to the upper right corner"),
              std::string::npos);
    EXPECT_NE(refusal({Place{std::nan(""), 10}, kTilted[1], kTilted[2], kTilted[3]}), "taken");
}

} // namespace
} // namespace cospot::plate_photo
