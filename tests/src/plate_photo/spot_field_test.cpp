#include "plate_photo/spot_field.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::plate_photo {
namespace {

/// 20 x 20 mm of even noise of one deviation of 0.01, without chance: each cell has its own angle.
Field noisy_field() {
    Field field = empty_field(80, 80, 4.0);
    for (std::size_t i = 0; i < field.values.size(); ++i) {
        field.values[i] =
            0.01F * static_cast<float>(std::sqrt(2.0) * std::sin(2.3 * static_cast<double>(i * i)));
    }
    return field;
}

void add_spot(Field &field, double x_mm, double y_mm, double height, double deviation_mm) {
    for (int y = 0; y < field.height; ++y) {
        for (int x = 0; x < field.width; ++x) {
            const double r = std::hypot(field.mm_of(x) - x_mm, field.mm_of(y) - y_mm);
            field.at(x, y) +=
                static_cast<float>(height * std::exp(-0.5 * std::pow(r / deviation_mm, 2)));
        }
    }
}

SpotField spots_of(const Field &signal) {
    return spot_field({.signal = signal, .colours = {}, .noise = deviations_in(signal, 20.0)}, {});
}

TEST(SpotField, ALargeFaintSpotStandsOutAndEvenNoiseDoesNot) {
    Field field = noisy_field();
    add_spot(field, 10.0, 10.0, 0.03, 1.3);
    const ClearedSignal signal = spots_of(field).signal;
    EXPECT_GT(signal.deviations_at(10.0, 10.0), 8.0);
    EXPECT_GT(signal.deviations_at(10.0, 10.0), signal.usual().deviations_at(10.0, 10.0));
    EXPECT_LT(signal.deviations_at(4.0, 16.0), 6.0);
}

TEST(SpotField, WhatGoesOnToAnEdgeOfThePlateReachesItAndASpotDoesNot) {
    Field field = empty_field(80, 80, 4.0);
    add_spot(field, 14.0, 10.0, 0.5, 1.0);
    for (int y = 36; y < 44; ++y) {
        for (int x = 0; x < 24; ++x) {
            field.at(x, y) = 1.0F; // a finger from the left, 6 mm far
        }
    }
    EXPECT_TRUE(reaches_edge(field, 5.0, 10.0));
    EXPECT_FALSE(reaches_edge(field, 14.0, 10.0));
}

} // namespace
} // namespace cospot::plate_photo
