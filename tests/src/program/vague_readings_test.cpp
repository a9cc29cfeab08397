// What a reading says of its compound as it becomes less and less certain.
#include "program_fixture.h"

#include <fmt/format.h>

#include <cmath>

namespace cospot {
namespace {

/// Invented alcohols on a column and an eluent, in three runs each.
class VagueReadings : public ProgramTest {
protected:
    VagueReadings() {
        std::string values = "compound,smiles,system,quantity,value,run\n";
        for (int i = 0; i < kCompounds; ++i) {
            const std::string who =
                fmt::format("alcohol {},{}O", i, std::string(static_cast<std::size_t>(i) + 1, 'C'));
            for (int run = 0; run < 3; ++run) {
                values +=
                    fmt::format("{},gc,RI,{},g{}\n{},tlc,Rf,{:.3f},p{}\n", who,
                                700 + 61 * i + 2 * run, run, who, 0.045 * i + 0.01 * run, run);
            }
        }
        cospot({"learn", "--systems",
                file("s.csv", "system,technique,stationary_phase,mobile_phase,scale\n"
                              "gc,gc,dimethylsilicone,,n-alkane\n"
                              "tlc,tlc,silica gel,hexane:ethyl acetate 3:1,\n"),
                file("v.csv", values)});
    }

    [[nodiscard]] nlohmann::json identify(const std::string &rows) const {
        const Outcome outcome =
            cospot({"--json", "identify", "--top", "100",
                    file("u.csv", "sample,feature,system,quantity,value,uncertainty\n" + rows)});
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome.lines().at(0);
    }

    [[nodiscard]] double unlisted(const std::string &rows) const {
        return identify(rows)["unlisted"].get<double>();
    }

    static constexpr int kCompounds = 20;
    static constexpr double kBefore = 0.2; ///< what unlisted has before measuring
};

TEST_F(VagueReadings, LeaveThePriorUnchanged) {
    for (const std::string reading : {"1,gc,RI,900", "1,gc,RI,1533", "1,gc,RI,3600", "1,tlc,Rf,0.3",
                                      "1,tlc,Rf,0", "1,tlc,Rf,1"}) {
        double last = 0.0;
        for (const std::string uncertainty : {"1e4", "1e5"}) {
            last = std::abs(unlisted("f," + reading + "," + uncertainty + "\n") - kBefore);
            EXPECT_LT(last, 0.02) << reading << " +- " << uncertainty;
        }
        EXPECT_LT(last, 2e-3) << reading;
    }
    const auto feature = identify("f,1,gc,RI,900,1e5\n");
    ASSERT_EQ(feature["candidates"].size(), static_cast<std::size_t>(kCompounds));
    for (const auto &candidate : feature["candidates"]) {
        EXPECT_NEAR(candidate["probability"].get<double>(), (1.0 - kBefore) / kCompounds, 1e-4);
    }
}

TEST_F(VagueReadings, NeverArgueForUnlisted) {
    // At a compound's place a reading speaks for the compound, less and less.
    double before = unlisted("f,1,gc,RI,945,0.5\n");
    for (const char *uncertainty : {"5", "20", "50", "200", "1000", "1e5"}) {
        const double now = unlisted(fmt::format("f,1,gc,RI,945,{}\n", uncertainty));
        EXPECT_LT(now, kBefore + 0.02) << uncertainty;
        EXPECT_GT(now, before - 0.05) << uncertainty;
        before = now;
    }
}

TEST_F(VagueReadings, AddNothingToOtherReadings) {
    const double alone = unlisted("f,1,gc,RI,945,0.5\n");
    EXPECT_NEAR(unlisted("f,1,gc,RI,945,0.5\nf,1,tlc,Rf,0.9,1e5\n"), alone, 1e-3);
}

TEST_F(VagueReadings, DoNotShiftTheirRun) {
    const std::string run = "f,1,gc,RI,947,0.5\nf,2,gc,RI,1191,0.5\nf,3,gc,RI,1434,0.5\n";
    const double alone = unlisted(run);
    EXPECT_NEAR(unlisted(run + "f,4,gc,RI,1770,300\n"), alone, 0.02);
}

} // namespace
} // namespace cospot
