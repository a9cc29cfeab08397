#include "shared/student_t.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace cospot {
namespace {

// ttable, read: t(0.95) is 2.920 at 2 and 2.132 at 4 degrees of freedom.
TEST(StudentT, ReachesAsFarAsTablesSay) {
    EXPECT_NEAR(student_t_reach(2.0, 0.9), 2.920, 5e-4);
    EXPECT_NEAR(student_t_reach(4.0, 0.9), 2.132, 5e-4);
}

// With one degree of freedom it is Cauchy's density 1 / (pi (1 + z^2)); in two dimensions the
// density at the centre is 1 / (2 pi) for any freedom.
TEST(StudentT, HasTheDensityOfItsSimplestCases) {
    for (const double z : {-3.0, 0.0, 0.5}) {
        EXPECT_NEAR(std::exp(log_student_t(z, 1.0)), 1.0 / (std::numbers::pi * (1.0 + z * z)),
                    1e-14);
    }
    EXPECT_NEAR(std::exp(student_t_constant(5.0, 2.0)), 0.5 * std::numbers::inv_pi, 1e-14);
}

} // namespace
} // namespace cospot
