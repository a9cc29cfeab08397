// Areas and times are invented.
#include "distil/distilled_sample.h"

#include <gtest/gtest.h>

namespace cospot::distillation {
namespace {

const quantities::BoilingScale kScale{{{8, 4.0, 125.7}, {9, 6.0, 150.8}}, {}};

Peak peak(const char *name, double time_min, double area) {
    Peak result;
    result.name = name;
    result.retention_time_min = time_min;
    result.area = area;
    return result;
}

TEST(DistilledSample, CountsWhatBoilsOutsideTheScale) {
    const auto sample =
        distil("run.csv", {peak("a", 1.0, 30.0), peak("b", 5.0, 60.0), peak("c", 9.0, 10.0)},
               kScale, std::nullopt);
    EXPECT_NEAR(sample.before_per_cent, 30.0, 1e-12);
    EXPECT_NEAR(sample.behind_per_cent, 10.0, 1e-12);
    for (const Recovered &row : sample.recovered) {
        const auto place = row.per_cent < 30.0   ? Recovered::Place::below_scale
                           : row.per_cent > 90.0 ? Recovered::Place::above_scale
                                                 : Recovered::Place::inside;
        EXPECT_EQ(row.place, place) << row.per_cent;
    }
}

TEST(DistilledSample, ATinyRestOnTheScaleIsNotTheWholeSample) {
    const auto sample =
        distil("run.csv", {peak("a", 1.0, 1e20), peak("b", 5.0, 1e-5)}, kScale, std::nullopt);
    ASSERT_FALSE(sample.recovered.empty());
    for (const Recovered &row : sample.recovered) {
        EXPECT_EQ(row.place, Recovered::Place::below_scale) << row.per_cent;
    }
}

} // namespace
} // namespace cospot::distillation
