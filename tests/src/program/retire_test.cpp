#include "program_fixture.h"

namespace cospot {
namespace {

class RetireTest : public ProgramTest {
protected:
    RetireTest() {
        cospot({"learn", "--create-systems",
                file("v.csv", "compound,smiles,system,quantity,value,run\n"
                              "ethanol,CCO,silica,Rf,0.30,p1\nethanol,CCO,silica,Rf,0.32,p2\n"
                              "benzene,c1ccccc1,silica,Rf,0.80,p1\n")});
    }

    /// The lines of `show ethanol --all` that are values, by their ids.
    std::vector<nlohmann::json> values() const {
        auto lines = cospot({"--json", "show", "ethanol", "--all"}).lines();
        lines.erase(lines.begin());
        return lines;
    }

    nlohmann::json identified() const {
        return cospot({"--json", "identify",
                       file("u.csv", "sample,feature,system,quantity,value\n"
                                     "a,A,silica,Rf,0.31\n")})
            .lines()
            .at(0);
    }
};

TEST_F(RetireTest, RetiredValuesNoLongerCountAndAreShownOnRequest) {
    const std::string id = values().at(0)["id"].dump();
    const Outcome outcome = cospot({"retire", "--value", id, "--reason", "plate ran askew"});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_EQ(cospot({"--json", "show", "ethanol"}).lines().size(), 2U);
    const auto all = values();
    ASSERT_EQ(all.size(), 2U);
    EXPECT_EQ(all[0]["state"], "retired");
    EXPECT_EQ(all[0]["withdrawn"]["detail"], "plate ran askew (value " + id + ")");
    EXPECT_FALSE(all[0]["withdrawn"]["who"].get<std::string>().empty());
    EXPECT_EQ(all[1]["state"], "held");
    EXPECT_TRUE(all[1]["withdrawn"].is_null());
    const std::string text = cospot({"show", "silica", "--all"}).out;
    EXPECT_NE(text.find("plate ran askew"), std::string::npos);
    EXPECT_NE(text.find("#" + id), std::string::npos);
}

TEST_F(RetireTest, SeveralIdsAndUndo) {
    const std::vector<std::string> ids{values()[0]["id"].dump(), values()[1]["id"].dump()};
    EXPECT_EQ(cospot({"--json", "retire", "--value", ids[0], ids[1], "--reason", "x"})
                  .lines()
                  .at(0)["retired"],
              2);
    EXPECT_EQ(identified()["candidates"].size(), 1U); // benzene is left
    EXPECT_EQ(cospot({"--json", "retire", "--undo", "--value", ids[0], ids[1], "--reason", "y"})
                  .lines()
                  .at(0)["taken_back"],
              2);
    EXPECT_EQ(identified()["candidates"].size(), 2U);
}

TEST_F(RetireTest, ValuesOfARetiredSystemDoNotIdentify) {
    EXPECT_EQ(cospot({"retire", "--system", "silica", "--reason", "lot recalled"}).code, kDone);
    const auto json = identified();
    EXPECT_TRUE(json["candidates"].empty());
    EXPECT_NE(json["warnings"].dump().find("retired"), std::string::npos);
    EXPECT_EQ(cospot({"--json", "list", "systems"}).lines().at(0)["retired"], true);
    EXPECT_NE(cospot({"show", "silica"}).out.find("lot recalled"), std::string::npos);
    EXPECT_EQ(cospot({"retire", "--undo", "--system", "silica", "--reason", "fine"}).code, kDone);
    EXPECT_EQ(identified()["candidates"].size(), 2U);
}

TEST_F(RetireTest, LearningOnARetiredSystemSaysThatItDoesNotCount) {
    cospot({"retire", "--system", "silica", "--reason", "lot recalled"});
    const Outcome outcome =
        cospot({"learn",
                file("w.csv", "compound,smiles,system,quantity,value\nethanol,,silica,Rf,0.4\n")});
    EXPECT_EQ(outcome.code, kDone);
    EXPECT_NE(outcome.err.find("silica is retired"), std::string::npos) << outcome.err;
    EXPECT_TRUE(identified()["candidates"].empty());
}

TEST_F(RetireTest, ARetiredCompoundIsNoCandidateAnywhere) {
    ASSERT_EQ(cospot({"retire", "--compound", "Ethanol", "--reason", "bottle recalled"}).code,
              kDone);
    EXPECT_EQ(identified()["candidates"].size(), 1U); // benzene is left
    const std::string table = file("w.csv", "sample,feature,system,quantity,value\n"
                                            "a,A,silica,Rf,0.31\n");
    const Outcome also =
        cospot({"identify", table, "--also", file("also.smi", "CCO ethanol\nCCCO propanol\n")});
    EXPECT_HOLDS(unwrapped(also.out), "ethanol: retired in the library");
    const Outcome plate = cospot(
        {"--json", "identify", "--system", "silica",
         file("plate.csv", "lane,label,role,spot,distance_mm,front_mm\n1,ethanol,standard,a,19,60\n"
                           "1,benzene,standard,b,48,60\n2,x,sample,a,19,60\n")});
    EXPECT_HOLDS(unwrapped(plate.err), "standard ethanol: retired in the library");
    const nlohmann::json first = plate.lines().at(0);
    for (const nlohmann::json &candidate : first["candidates"]) {
        EXPECT_NE(candidate["compound"], "ethanol");
    }
    for (const std::vector<std::string> &arguments :
         {std::vector<std::string>{"advise", "--compounds", "ethanol", "--compounds", "benzene"},
          {"column", "--compounds", "ethanol,benzene", "--system", "silica"},
          {"purity", table, "--declared", "ethanol"}}) {
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kBadInput) << arguments.front();
        EXPECT_HOLDS(outcome.err, "bottle recalled (compound ethanol)");
    }
    EXPECT_HOLDS(unwrapped(cospot({"predict", "ethanol"}).out), "ethanol is no candidate");
    EXPECT_EQ(cospot({"audit"}).out.find("ethanol"), std::string::npos);
    EXPECT_HOLDS(cospot({"show", "ethanol"}).out, "bottle recalled");
    EXPECT_HOLDS(cospot({"list"}).out, "ethanol (retired)");
    EXPECT_EQ(cospot({"--json", "show", "ethanol"}).lines().at(0)["retired"], true);
    const Outcome learned =
        cospot({"learn", file("x.csv", "compound,smiles,system,quantity,value\n"
                                       "ethanol,,silica,Rf,0.4\nethanol,CCO,silica,Rf,0.5\n")});
    EXPECT_HOLDS(learned.err, "ethanol is retired: its values do not count");
    EXPECT_EQ(identified()["candidates"].size(), 1U);
    const Outcome back = cospot({"--json", "retire", "--undo", "--compound", "ethanol", "--reason",
                                 "the bottle was right"});
    EXPECT_EQ(back.lines().at(0)["taken_back"], 4);
    EXPECT_EQ(identified()["candidates"].size(), 2U);
    EXPECT_EQ(cospot({"show", "ethanol"}).out.find("Retired"), std::string::npos);
}

TEST_F(RetireTest, ARetiredCompoundIsMergedAsSuch) {
    const std::string other = path("other.db");
    cospot({"--library", other, "init"});
    cospot({"retire", "--compound", "ethanol", "--reason", "bottle recalled"});
    EXPECT_EQ(cospot({"--library", other, "merge", path("library.db")}).code, kDone);
    const Outcome shown = cospot({"--library", other, "show", "ethanol"});
    EXPECT_HOLDS(shown.out, "bottle recalled");
    EXPECT_HOLDS(shown.out, "0 values");
}

TEST_F(RetireTest, WrongUseIsAnErrorAndChangesNothing) {
    const std::string before = cospot({"--json", "show", "silica", "--all"}).out;
    for (const std::vector<std::string> &arguments :
         {std::vector<std::string>{"retire"},
          {"retire", "--value", "1"},
          {"retire", "--value", "1", "--reason", "  "},
          {"retire", "--reason", "x"},
          {"retire", "--value", "1", "--system", "silica", "--reason", "x"},
          {"retire", "--value", "1", "999", "--reason", "x"},
          {"retire", "--value", "one", "--reason", "x"},
          {"retire", "--system", "none", "--reason", "x"},
          {"retire", "--compound", "none", "--reason", "x"},
          {"retire", "--compound", "ethanol"},
          {"retire", "--compound", "ethanol", "--system", "silica", "--reason", "x"}}) {
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
    }
    EXPECT_EQ(cospot({"--json", "show", "silica", "--all"}).out, before);
}

} // namespace
} // namespace cospot
