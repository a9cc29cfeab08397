#include "descriptors/boiling_point.h"
#include "descriptors/boiling_point_model.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>
#include <thread>
#include <utility>
#include <vector>

namespace cospot::descriptors {
namespace {

constexpr double celsius_zero = 273.15;

BoilingPoint modelled(const std::string &smiles) {
    return boiling_points(smiles).model;
}

// astmd2887, confirmed in yaws. None of these was among the compounds that the model was fitted to.
TEST(BoilingPointModel, FollowsAlkanesThatItWasNotFittedTo) {
    for (const auto &[carbons, celsius] :
         std::vector<std::pair<std::size_t, double>>{{11, 196}, {15, 271}, {17, 302}, {24, 391}}) {
        const BoilingPoint point = modelled(std::string(carbons, 'C'));
        ASSERT_TRUE(point.kelvin && point.standard_error_kelvin) << carbons;
        EXPECT_NEAR(*point.kelvin, celsius + celsius_zero, 2 * *point.standard_error_kelvin)
            << carbons;
        EXPECT_LT(*point.standard_error_kelvin, 20.0) << carbons;
    }
}

TEST(BoilingPointModel, IsLessSureFarFromWhatItWasFittedTo) {
    const double at_home = modelled("CCCCCC").standard_error_kelvin.value();
    const double away = modelled("OCC(O)C(O)C(O)C(O)C(O)=O").standard_error_kelvin.value();
    EXPECT_GT(at_home, 2.0);
    EXPECT_GT(away, 2.0 * at_home);
}

TEST(BoilingPointModel, DoesNotDependOnHowTheStructureIsWritten) {
    EXPECT_NEAR(modelled("OCC").kelvin.value(), modelled("C(C)O").kelvin.value(), 1e-9);
    EXPECT_NEAR(modelled("c1ccccc1C").kelvin.value(), modelled("CC1=CC=CC=C1").kelvin.value(),
                1e-9);
}

TEST(BoilingPointModel, RefusesWhatItWasNotMadeFor) {
    EXPECT_EQ(modelled("[Na+].[O-]C(C)=O").missing, "several fragments: a salt or a mixture");
    EXPECT_EQ(modelled("OS(=O)(=O)O").missing, "no carbon");
    EXPECT_EQ(modelled("CC[Pb](CC)(CC)CC").missing,
              "no group for atom 3 (Pb, bonded to C, C, C, C)");
    EXPECT_EQ(modelled("C[N+](C)(C)CC(=O)[O-]").missing,
              "no group for atom 2 (N, charge +1, bonded to C, C, C, C)");
    EXPECT_EQ(modelled("C").missing, "1 heavy atoms; the model was fitted to 2 to 50");
    EXPECT_EQ(modelled(std::string(60, 'C')).missing,
              "60 heavy atoms; the model was fitted to 2 to 50");
    for (const char *smiles : {"[Na+].[O-]C(C)=O", "OS(=O)(=O)O", "C"}) {
        EXPECT_FALSE(modelled(smiles).kelvin) << smiles;
        EXPECT_FALSE(modelled(smiles).standard_error_kelvin) << smiles;
    }
    EXPECT_THROW(static_cast<void>(boiling_points("CC(")), InputError);
}

TEST(BoilingPointModel, ReadsItsTable) {
    const std::string text = "kind\tname\tvalues\n"
                             "constant\tintercept\t100\nconstant\tresidual\t5\n"
                             "constant\tleverage_floor\t0.1\nconstant\tleverage_power\t0.5\n"
                             "constant\tcrowding\t2\nconstant\tfewest_heavy_atoms\t2\n"
                             "constant\tmost_heavy_atoms\t50\n"
                             "coefficient\ta\t1.5\ncoefficient\tb\t-2\n"
                             "centre\ta\t0.5\nleverage\ta\t3\n"
                             "centre\tb\t0\nleverage\tb\t1 2\n";
    const BoilingPointModel model = read_boiling_point_model(text, {"a", "b"});
    EXPECT_EQ(model.coefficients, (std::vector<double>{1.5, -2.0}));
    EXPECT_EQ(model.centre, (std::vector<double>{0.5, 0.0}));
    EXPECT_EQ(model.leverage, (std::vector<double>{3.0, 1.0, 2.0}));
    EXPECT_THROW(static_cast<void>(read_boiling_point_model(text, {"a", "c"})), std::logic_error);
    EXPECT_THROW(static_cast<void>(read_boiling_point_model(text + "leverage\tb\t1\n", {"a", "b"})),
                 std::logic_error);
}

TEST(BoilingPoints, AreTheSameFromTwoThreads) {
    const std::vector<std::string> texts{"CCO", "Cc1ccccc1", "CCCCBr", "CC(=O)N(C)C"};
    std::vector<double> expected;
    expected.reserve(texts.size());
    for (const std::string &text : texts) {
        expected.push_back(modelled(text).kelvin.value());
    }
    const auto differences = [&](int &count) {
        for (std::size_t turn = 0; turn < 200; ++turn) {
            const std::size_t which = turn % texts.size();
            count += boiling_points(texts[which]).model.kelvin != expected[which] ? 1 : 0;
        }
    };
    int first = 0;
    int second = 0;
    std::thread other([&] { differences(second); });
    differences(first);
    other.join();
    EXPECT_EQ(first + second, 0);
}

} // namespace
} // namespace cospot::descriptors
