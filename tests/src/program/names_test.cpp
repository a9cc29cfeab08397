#include "program_fixture.h"

namespace cospot {
namespace {

/// A library with two structures called carvone; the names and values are invented.
class NamesTest : public ProgramTest {
protected:
    NamesTest() {
        cospot({"learn", "--create-systems",
                file("v.csv", "compound,smiles,system,quantity,value,run\n"
                              "carvone,CC(=C)[C@H]1CC=C(C)C(=O)C1,silica,Rf,0.30,p1\n"
                              "carvone,CC(=C)[C@@H]1CC=C(C)C(=O)C1,silica,Rf,0.32,p2\n"
                              "eugenol,COc1cc(CC=C)ccc1O,silica,Rf,0.50,p1\n"
                              "anisole,COc1ccccc1,silica,Rf,0.80,p1\n")});
        for (const nlohmann::json &line : cospot({"--json", "list"}).lines()) {
            if (line["compound"] == "carvone") {
                keys_.push_back(line["inchikey"]);
            }
        }
    }

    std::vector<std::string> keys_; ///< of both carvones
};

TEST_F(NamesTest, ANameOfTwoStructuresIsRefusedWithBothWhereverItIsRead) {
    ASSERT_EQ(keys_.size(), 2U);
    const std::string table = "sample,feature,system,quantity,value\na,A,silica,Rf,0.31\n";
    for (const std::vector<std::string> &arguments :
         {std::vector<std::string>{"show", "carvone"},
          {"predict", "Carvone"},
          {"advise", "--compounds", "carvone", "--compounds", "eugenol"},
          {"column", "--compounds", "carvone,eugenol", "--system", "silica"},
          {"purity", file("p.csv", table), "--declared", "carvone"},
          {"identify", file("u.csv", table), "--prior",
           file("prior.csv", "compound,weight\ncarvone,2\n")},
          {"identify", "--system", "silica",
           file("plate.csv", "lane,label,role,spot,distance_mm,front_mm\n1,carvone,standard,a,20,"
                             "60\n2,x,sample,a,20,60\n")},
          {"learn",
           file("w.csv", "compound,smiles,system,quantity,value\ncarvone,,silica,Rf,0.4\n")}}) {
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kBadInput) << arguments.front();
        EXPECT_HOLDS(outcome.err, "a name of 2 structures");
        EXPECT_HOLDS(outcome.err, keys_[0]);
        EXPECT_HOLDS(outcome.err, keys_[1]);
    }
    EXPECT_HOLDS(cospot({"identify", "--system", "silica", path("plate.csv")}).err,
                 "plate.csv:2, column label: found \"carvone\"");
    EXPECT_EQ(cospot({"show", keys_[0]}).code, kDone);
    EXPECT_EQ(cospot({"column", "--compounds", keys_[1] + ",eugenol", "--system", "silica"}).code,
              kDone);
}

TEST_F(NamesTest, LearningByAKeyAddsNoName) {
    EXPECT_EQ(cospot({"learn", file("w.csv", "compound,smiles,system,quantity,value\n" + keys_[0] +
                                                 ",,silica,Rf,0.4\n")})
                  .code,
              kDone);
    EXPECT_EQ(cospot({"show", keys_[0]}).out.find("Also called"), std::string::npos);
}

TEST_F(NamesTest, NearNamesAreProposedWhereNothingIsFound) {
    EXPECT_HOLDS(unwrapped(cospot({"show", "eugenl"}).err), "did you mean \"eugenol\"?");
    EXPECT_HOLDS(unwrapped(cospot({"show", "silca"}).err), "did you mean \"silica\"?");
    EXPECT_HOLDS(unwrapped(cospot({"predict", "eugenl"}).err), "did you mean \"eugenol\"?");
    EXPECT_HOLDS(unwrapped(cospot({"predict", "CCO", "--system", "silca"}).err),
                 "did you mean \"silica\"?");
    EXPECT_HOLDS(unwrapped(cospot({"column", "--compounds", "eugenl", "--system", "silica"}).err),
                 "did you mean \"eugenol\"?");
    EXPECT_HOLDS(unwrapped(cospot({"learn", file("w.csv", "compound,smiles,system,quantity,value\n"
                                                          "eugenl,,silica,Rf,0.4\n")})
                               .err),
                 "did you mean \"eugenol\"?");
    EXPECT_EQ(cospot({"show", "frobnicate"}).err.find("did you mean"), std::string::npos);
}

TEST_F(NamesTest, SystemsAreFoundWhateverTheCase) {
    const std::string rows = "a,A,SILICA,Rf,0.31\na,A,Silica,Rf,0.33\n";
    const auto json = cospot({"--json", "identify",
                              file("u.csv", "sample,feature,system,quantity,value\n" + rows)})
                          .lines()
                          .at(0);
    EXPECT_EQ(json["observations"].size(), 1U) << json; // repeats on one system
    EXPECT_EQ(json["observations"][0]["system"], "silica");
    EXPECT_EQ(cospot({"--json", "list", "--system", "SILICA"}).lines().size(), 4U);
    EXPECT_EQ(cospot({"--json", "list", "systems", "--system", "SILICA"}).lines().size(), 1U);
    EXPECT_EQ(cospot({"predict", "eugenol", "--system", "Silica"}).code, kDone);
    EXPECT_EQ(cospot({"learn", "--create-systems",
                      file("w.csv", "compound,smiles,system,quantity,value\neugenol,,SILICA,Rf,0.4"
                                    "\n")})
                  .code,
              kDone);
    EXPECT_EQ(cospot({"--json", "list", "systems"}).lines().size(), 1U);
}

TEST_F(NamesTest, TwoNewSystemsThatDifferInCaseOnlyAreRefused) {
    const Outcome outcome = cospot(
        {"learn", "--systems",
         file("s.csv", "system,technique,mobile_phase\nC18,hplc,water\nc18,hplc,methanol\n")});
    EXPECT_EQ(outcome.code, kBadInput);
    EXPECT_HOLDS(unwrapped(outcome.err), "system \"c18\" beside \"C18\"");
    EXPECT_EQ(cospot({"learn", "--systems",
                      file("t.csv", "system,technique,mobile_phase\nC18,hplc,water\n")})
                  .code,
              kDone);
    const Outcome later = cospot({"learn", "--systems",
                                  file("w.csv", "system,technique,mobile_phase\nc18,hplc,methanol"
                                                "\n")});
    EXPECT_EQ(later.code, kBadInput);
    EXPECT_HOLDS(unwrapped(later.err), "system \"c18\", which the library calls \"C18\"");
}

} // namespace
} // namespace cospot
