// Runs are identified on several threads at once; nobody may see that in the answers.
#include "program_fixture.h"

#include <fmt/format.h>

#include <random>

namespace cospot {
namespace {

TEST_F(ProgramTest, IdentifyAnswersManyRunsAsEachAlone) {
    std::string values = "compound,smiles,system,quantity,value,run\n";
    for (std::size_t carbons = 5; carbons < 20; ++carbons) {
        for (int run = 0; run < 3; ++run) {
            values += fmt::format("alkanol {0},{1}O,ramp,RI,{2},r{3}\n", carbons,
                                  std::string(carbons, 'C'), 600 + 7 * carbons,
                                  run); // closer together than they are: invented
        }
    }
    const Outcome learned = cospot(
        {"learn", "--systems", file("systems.csv", "system,technique,scale\nramp,gc,n-alkane\n"),
         file("values.csv", values)});
    ASSERT_EQ(learned.code, kDone) << learned.err;

    const std::string head = "sample,feature,system,quantity,value\n";
    std::mt19937 engine(2);
    std::uniform_real_distribution<double> index(620.0, 760.0);
    std::string all = head;
    std::string one_by_one;
    for (int run = 0; run < 70; ++run) {
        std::string rows;
        for (int feature = 0; feature < 6; ++feature) {
            rows += fmt::format("run {},{},ramp,RI,{:.1f}\n", run, feature, index(engine));
        }
        all += rows;
        one_by_one += cospot({"--json", "identify", file("one.csv", head + rows)}).out;
    }
    const Outcome together = cospot({"--json", "identify", file("all.csv", all)});
    EXPECT_EQ(together.lines().size(), 420U);
    EXPECT_EQ(together.out, one_by_one);
}

} // namespace
} // namespace cospot
