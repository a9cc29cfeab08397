#include "program_fixture.h"

namespace cospot {
namespace {

/// Four compounds on two columns; two of them lie together on the first, apart on the second. All
/// values invented for the test.
class TwoColumns : public ProgramTest {
protected:
    TwoColumns() {
        const std::string systems = file(
            "systems.csv", "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                           "apolar,gc,dimethylsilicone,helium,,\"50 C, 5 C/min to 250 C\"\n"
                           "polar,gc,polyethylene glycol,helium,,\"50 C, 5 C/min to 250 C\"\n");
        std::string values = "compound,smiles,system,quantity,value,run,date\n";
        const auto add = [&](const std::string &compound, double apolar, double polar) {
            for (int run = 1; run <= 3; ++run) {
                const std::string tail =
                    ",r" + std::to_string(run) + ",2026-05-0" + std::to_string(run) + "\n";
                values += compound + ",apolar,tR," + std::to_string(apolar + 0.005 * run) + tail;
                values += compound + ",polar,tR," + std::to_string(polar + 0.005 * run) + tail;
            }
        };
        add("limonene,CC1=CCC(CC1)C(C)=C", 5.0, 4.0);
        add("linalool,CC(C)=CCCC(C)(O)C=C", 6.0, 8.0);
        add("camphor,CC1(C)C2CCC1(C)C(=O)C2", 7.0, 7.5);
        add("menthol,CC(C)C1CCC(C)CC1O", 7.01, 9.5);
        const Outcome learned = cospot({"learn", "--systems", systems, file("values.csv", values)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
        first_ = file("apolar.csv", "peak,tR,area\n1,5.010,120\n2,6.010,30\n3,7.018,400\n");
        second_ = file("polar.csv", "peak,tR,area\n1,4.010,61\n2,8.010,14.8\n3,9.510,203\n");
    }

    [[nodiscard]] Outcome identify(std::vector<std::string> more) const {
        std::vector<std::string> arguments{"--json", "identify", first_, "--system", "apolar"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        return cospot(std::move(arguments));
    }

    std::string first_;
    std::string second_;
};

TEST_F(TwoColumns, TellWhatOneColumnCannot) {
    const auto alone = identify({}).lines();
    EXPECT_LT(alone.at(2)["candidates"][0]["probability"], 0.7);
    const Outcome outcome = identify({"--second-column", second_, "--second-system", "polar"});
    const auto both = outcome.lines();
    ASSERT_EQ(both.size(), 3U) << outcome.err;
    EXPECT_EQ(both.at(2)["pair"]["peak"], "3");
    EXPECT_EQ(both.at(2)["pair"]["system"], "polar");
    EXPECT_EQ(both.at(2)["candidates"][0]["compound"], "menthol");
    EXPECT_GT(both.at(2)["candidates"][0]["probability"], 0.9);
    EXPECT_EQ(both.at(2)["candidates"][0]["systems"].size(), 2U);
    EXPECT_NE(outcome.err.find("were paired by area and order: 3 pairs"), std::string::npos)
        << outcome.err;
}

/// The answer for the feature of that name.
nlohmann::json answer_for(const std::vector<nlohmann::json> &lines, const std::string &name) {
    for (const nlohmann::json &line : lines) {
        if (line.at("feature") == name) {
            return line;
        }
    }
    return {};
}

TEST_F(TwoColumns, JudgeAPeakWithoutPartnerOnItsOwn) {
    const std::string more = file("more.csv", "peak,tR,area\n1,4.010,61\n2,7.510,1900\n"
                                              "3,8.010,14.8\n4,9.510,203\n");
    const auto lines = identify({"--second-column", more, "--second-system", "polar"}).lines();
    const auto alone = answer_for(lines, "2 on polar");
    ASSERT_TRUE(alone.is_object());
    EXPECT_FALSE(alone.contains("pair"));
    EXPECT_EQ(alone["candidates"][0]["compound"], "camphor");
}

TEST_F(TwoColumns, DoNotCompeteForACompoundThatBothShow) {
    // Linalool has no clear partner: its areas disagree. It is seen on each column all the same.
    const std::string other = file("other.csv", "peak,tR,area\n1,4.010,61\n2,8.010,9000\n"
                                                "3,9.510,203\n");
    const auto lines = identify({"--second-column", other, "--second-system", "polar"}).lines();
    for (const char *name : {"2", "2 on polar"}) {
        const auto answer = answer_for(lines, name);
        ASSERT_TRUE(answer.is_object()) << name;
        EXPECT_EQ(answer["candidates"][0]["compound"], "linalool");
        EXPECT_GT(answer["candidates"][0]["probability"], 0.9) << name;
    }
}

TEST_F(TwoColumns, NeedAreas) {
    const std::string bare = file("bare.csv", "peak,tR\n1,4.010\n2,8.010\n");
    const Outcome outcome = identify({"--second-column", bare, "--second-system", "polar"});
    EXPECT_EQ(outcome.code, kBadInput);
    EXPECT_NE(outcome.err.find("no area of peak 1 on polar"), std::string::npos) << outcome.err;
}

TEST_F(TwoColumns, AreTwoSystems) {
    const Outcome same = identify({"--second-column", second_, "--second-system", "apolar"});
    EXPECT_EQ(same.code, kBadInput);
    EXPECT_NE(same.err.find("both columns are \"apolar\""), std::string::npos) << same.err;
    const Outcome none = identify({"--second-column", second_});
    EXPECT_NE(none.err.find("--second-system NAME as well"), std::string::npos) << none.err;
    const Outcome lost = identify({"--second-system", "polar"});
    EXPECT_NE(lost.err.find("--second-column FILE as well"), std::string::npos) << lost.err;
}

} // namespace
} // namespace cospot
