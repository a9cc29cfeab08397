#include "program_fixture.h"

#include <fmt/format.h>

#include <cmath>

namespace cospot {
namespace {

/// Forty invented alcohols on one eluent, of which four were measured on a new one too.
class HeldElsewhereTest : public ProgramTest {
protected:
    HeldElsewhereTest() {
        std::string values = "compound,smiles,system,quantity,value\n";
        for (int i = 0; i < 40; ++i) {
            const std::string head =
                fmt::format("alcohol {},{}O", i, std::string(static_cast<std::size_t>(i) + 1, 'C'));
            values += fmt::format("{},usual,Rf,{:.3f}\n", head, 0.05 + 0.0225 * i);
            if (i % 10 == 5) {
                values += fmt::format("{},new,Rf,{:.3f}\n", head, 0.95 - 0.0225 * i);
            }
        }
        cospot({"learn", "--systems",
                file("s.csv", "system,technique,stationary_phase,mobile_phase\n"
                              "usual,tlc,silica gel,hexane:ethyl acetate 3:1\n"
                              "new,tlc,silica gel,dichloromethane\n"),
                file("v.csv", values)});
    }
};

TEST_F(HeldElsewhereTest, CompoundsThatWereNotMeasuredHereKeepTheirShare) {
    const std::string table =
        file("u.csv", "sample,feature,system,quantity,value\nflask,1,new,Rf,0.8375\n");
    const auto feature = cospot({"--json", "identify", table}).lines().at(0);
    EXPECT_EQ(feature["candidates"].at(0)["compound"], "alcohol 5");
    EXPECT_LT(feature["candidates"].at(0)["probability"].get<double>(), 0.9);
    EXPECT_EQ(feature["not_measured"]["compounds"], 36);
    EXPECT_GT(feature["not_measured"]["probability"].get<double>(), 0.3);
    double sum = feature["unlisted"].get<double>() + feature["other"].get<double>();
    for (const auto &candidate : feature["candidates"]) {
        sum += candidate["probability"].get<double>();
    }
    EXPECT_NEAR(sum, 1.0, 1e-9);
    EXPECT_HOLDS(unwrapped(cospot({"identify", table}).out),
                 "36 compounds of the library, not measured here");
}

TEST_F(HeldElsewhereTest, WhereAllWereMeasuredNothingIsHeldElsewhere) {
    const auto feature =
        cospot({"--json", "identify",
                file("u.csv", "sample,feature,system,quantity,value\nflask,1,usual,Rf,0.5\n")})
            .lines()
            .at(0);
    EXPECT_EQ(feature["not_measured"]["compounds"], 0);
    EXPECT_EQ(feature["not_measured"]["probability"], 0.0);
}

} // namespace
} // namespace cospot
