#include "program_fixture.h"

namespace cospot {
namespace {

class MergeTest : public ProgramTest {
protected:
    MergeTest() {
        cospot({"learn", "--systems", file("s.csv", kSystems), file("v.csv", kValues)});
        other({"init"});
    }

    Outcome other(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"--library", other_});
        return cospot(arguments);
    }

    /// Learns a table of values into the other library, on systems like ours but for
    /// `mobile_phase`.
    void other_learns(const std::string &mobile_phase, const std::string &rows) const {
        const Outcome outcome = other(
            {"learn", "--systems",
             file("so.csv", "system,technique,mobile_phase\nsilica,tlc," + mobile_phase + "\n"),
             file("vo.csv", "compound,smiles,system,quantity,value,run\n" + rows)});
        ASSERT_EQ(outcome.code, kDone) << outcome.err;
    }

    static constexpr const char *kSystems =
        "system,technique,mobile_phase\nsilica,tlc,hexane:ethyl acetate 3:1\n";
    static constexpr const char *kValues = "compound,smiles,system,quantity,value,run\n"
                                           "ethanol,CCO,silica,Rf,0.30,p1\n"
                                           "benzene,c1ccccc1,silica,Rf,0.80,p1\n";
    const std::string other_ = (folder_ / "other.db").string();
};

TEST_F(MergeTest, UnitesTwoLibraries) {
    other_learns("hexane:ethyl acetate 3:1", "ethanol,OCC,silica,Rf,0.30,p1\n"
                                             "ethanol,OCC,silica,Rf,0.33,p7\n"
                                             "toluene,Cc1ccccc1,silica,Rf,0.82,p7\n");
    const Outcome outcome = cospot({"--json", "merge", other_});
    EXPECT_EQ(outcome.code, kDone) << outcome.out << outcome.err;
    const auto json = outcome.lines().at(0);
    EXPECT_EQ(json["values_added"], 2);
    EXPECT_EQ(json["values_known"], 1);
    EXPECT_EQ(json["compounds_added"], 1);
    EXPECT_TRUE(json["findings"].empty());
    EXPECT_EQ(cospot({"--json", "list"}).lines().size(), 3U);
    EXPECT_EQ(cospot({"--json", "show", "ethanol"}).lines().size(), 3U);
}

TEST_F(MergeTest, IsIndependentOfWhichLibraryTakesOver) {
    other_learns("hexane:ethyl acetate 3:1", "toluene,Cc1ccccc1,silica,Rf,0.82,p7\n");
    const std::string copy = (folder_ / "copy.db").string();
    cospot({"backup", copy});
    cospot({"merge", other_});
    other({"merge", copy});
    EXPECT_EQ(other({"--json", "list"}).out, cospot({"--json", "list"}).out);
}

TEST_F(MergeTest, ConflictsAreReportedAndNeedAttention) {
    other_learns("hexane:ethyl acetate 1:1", "ethanol,CO,silica,Rf,0.50,p1\n");
    const Outcome text = cospot({"merge", other_});
    EXPECT_EQ(text.code, kNeedsAttention);
    EXPECT_NE(text.out.find("silica"), std::string::npos) << text.out;
    EXPECT_NE(text.out.find("ethanol"), std::string::npos) << text.out;
    EXPECT_NE(text.out.find("Values                          0              0        1"),
              std::string::npos)
        << text.out;

    const Outcome renamed = cospot({"--json", "merge", "--rename-conflicts", other_});
    EXPECT_EQ(renamed.code, kNeedsAttention);
    const auto json = renamed.lines().at(0);
    EXPECT_EQ(json["values_added"], 1);
    ASSERT_EQ(json["findings"].size(), 1U);
    EXPECT_EQ(json["findings"][0]["kind"], "system");
    EXPECT_EQ(json["findings"][0]["subject"], "silica");
    EXPECT_EQ(cospot({"--json", "show", "silica (from other.db)"}).lines().size(), 2U);
    EXPECT_EQ(cospot({"merge", "--rename-conflicts", other_}).code, kDone);
}

TEST_F(MergeTest, WrongUseIsAnErrorAndChangesNothing) {
    const std::string before = library_content();
    EXPECT_EQ(cospot({"merge"}).code, kBadInput);
    EXPECT_EQ(cospot({"merge", (folder_ / "none.db").string()}).code, kBadInput);
    EXPECT_EQ(cospot({"merge", (folder_ / "library.db").string()}).code, kBadInput);
    EXPECT_EQ(cospot({"merge", file("text.db", "compound,smiles\n")}).code, kBadInput);
    EXPECT_EQ(library_content(), before);
}

} // namespace
} // namespace cospot
