// Sheets as people write them, without a change for the program. All values are invented.
#include "program_fixture.h"

namespace cospot {
namespace {

class SheetsAsWritten : public ProgramTest {
protected:
    SheetsAsWritten() {
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("s.csv", "system,technique,stationary_phase,mobile_phase\n"
                                  "silica,tlc,silica gel,hexane:ethyl acetate 3:1\n"),
                    file("v.csv", "compound,smiles,system,quantity,value,run,date\n"
                                  "ethanol,CCO,silica,Rf,0.30,p1,2026-03-01\n"
                                  "benzene,c1ccccc1,silica,Rf,0.80,p1,2026-03-01\n"
                                  "toluene,Cc1ccccc1,silica,Rf,0.60,p1,2026-03-01\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    /// What is printed, its line ends as blanks, with what goes to standard error.
    Outcome identified(const std::string &plate, std::vector<std::string> options = {}) const {
        options.insert(options.begin(), {"identify", file("p.csv", plate), "--system", "silica"});
        Outcome outcome = cospot(options);
        std::string words;
        for (const char c : outcome.out) {
            const bool is_blank = c == '\n' || c == ' ';
            if (!is_blank || words.empty() || words.back() != ' ') {
                words += is_blank ? ' ' : c;
            }
        }
        outcome.out = words;
        return outcome;
    }

    static bool holds(const std::string &text, const std::string &part) {
        return text.find(part) != std::string::npos;
    }
};

TEST_F(SheetsAsWritten, TitlesAboveTheHeaderAreReadByNobody) {
    const Outcome plate = identified("Plates of Monday\nGroup 3, room 2\n\n"
                                     "lane;label;distance (cm);front (cm)\n1;x;2,1;7,0\n");
    EXPECT_EQ(plate.code, kDone) << plate.err;
    EXPECT_TRUE(holds(plate.out, "the header is line 4; 2 lines above it are not read"));
    const Outcome values =
        cospot({"learn", file("w.csv", "Our list\ncompound;system;Rf\nethanol;silica;0,31\n")});
    EXPECT_EQ(values.code, kDone) << values.err;
    EXPECT_TRUE(holds(values.out, "Values")) << values.out;
    const Outcome pooled =
        cospot({"pool", file("f.csv", "Column 7\nfraction,Rf\n1,0.5\n2,0.5\n3,-\n")});
    EXPECT_LT(pooled.code, kBadInput) << pooled.err;
}

TEST_F(SheetsAsWritten, TablesUnderTitlesAreProposedByTheirOwnHeaders) {
    const Outcome compounds =
        cospot({"learn", file("c.csv", "my compounds, march;;;\nName;SMILES;MW [g/mol];Remark\n"
                                       "anisole;COc1ccccc1;108,14;\n")});
    EXPECT_EQ(compounds.code, kBadInput);
    EXPECT_TRUE(holds(compounds.err, "c.csv:2, column compound: found a header without it: "
                                     "\"Name\", \"SMILES\""))
        << compounds.err;
    EXPECT_TRUE(holds(compounds.err, "perhaps --map compound=\"Name\"")) << compounds.err;
    const Outcome values = cospot({"learn", file("v.csv", "Old notebooks;;;\nSubstanz;LM;Rf;Bem.\n"
                                                          "ethanol;silica;0,31;\n")});
    EXPECT_EQ(values.code, kBadInput);
    EXPECT_TRUE(holds(values.err, "v.csv:2, column compound: found a header without it"))
        << values.err;
    EXPECT_TRUE(holds(values.err, "--map compound=\"Substanz\" --map system=\"LM\"")) << values.err;
}

TEST_F(SheetsAsWritten, ARoughRfIsLearnedWithTwiceTheUncertainty) {
    const Outcome outcome =
        cospot({"learn", file("r.csv", "compound;system;Rf;run\nethanol;silica;ca. 0,31;q\n")});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_TRUE(holds(outcome.err, "twice the usual uncertainty (line 2)")) << outcome.err;
    EXPECT_TRUE(holds(cospot({"export", "values"}).out, "0.31,0.02,q"));
}

TEST_F(SheetsAsWritten, APlateNotedInRfSpeaksOfRf) {
    const std::string plate = "lane,label,Rf,role\n1,x,0.40,\n2,ethanol,0.30,standard\n";
    const Outcome shown = identified(plate);
    EXPECT_LT(shown.code, kBadInput) << shown.err;
    EXPECT_TRUE(holds(shown.out, "0.10 in Rf above the standard on lane 2")) << shown.out;
    EXPECT_FALSE(holds(shown.out, " mm")) << shown.out;
    const auto features =
        cospot({"--json", "identify", path("p.csv"), "--system", "silica"}).lines();
    EXPECT_EQ(features.at(0).at("observations").at(0).at("value"), 0.40);
    EXPECT_EQ(features[0]["observations"][0]["uncertainty"], 0.01);
    EXPECT_TRUE(features[0]["plate"]["distance_mm"].is_null()) << "nobody measured it";
    EXPECT_EQ(features[0]["standards"].at(0)["unit"], "Rf");
    const Outcome learned = cospot(
        {"learn", path("p.csv"), "--system", "silica", "--run", "p2", "--date", "2026-03-02"});
    EXPECT_EQ(learned.code, kDone) << learned.err;
    EXPECT_TRUE(holds(cospot({"export", "values"}).out, "ethanol"));
    const std::string page = path("p.html");
    EXPECT_LT(identified(plate, {"--report", page}).code, kBadInput);
    EXPECT_FALSE(holds(content("p.html"), ">mm<")) << "no ruler beside the plate";
}

TEST_F(SheetsAsWritten, AMapWithoutEffectIsTold) {
    const std::string plate = "lane,label,distance_mm,front_mm,uv254\n1,x,21,70,y\n2,z,21,70,x\n";
    const Outcome outcome = identified(
        plate, {"--map", "colour=Farbe", "--map", "lane=Bahn", "--map", "yes=ja", "--map", "no=y"});
    EXPECT_TRUE(holds(outcome.err, "--map colour=Farbe had no effect: no table has a column "
                                   "\"Farbe\""))
        << outcome.err;
    EXPECT_TRUE(holds(outcome.err, "--map lane=Bahn had no effect")) << outcome.err;
    EXPECT_TRUE(holds(outcome.err, "--map yes=ja had no effect: no cell that is read says \"ja\""))
        << outcome.err;
    EXPECT_FALSE(holds(outcome.err, "no=y")) << outcome.err;
}

TEST_F(SheetsAsWritten, SeveralWordsMayStandForOneAndAreRemembered) {
    const std::string plate = "lane,label,distance_mm,front_mm,uv254\n1,w,21,70,oui\n"
                              "2,z,21,70,ja\n";
    ASSERT_EQ(identified(plate).code, kBadInput);
    EXPECT_EQ(identified(plate, {"--map", "yes=ja", "--map", "yes=oui", "--as", "lamp"}).code,
              kDone);
    EXPECT_EQ(identified(plate, {"--as", "lamp"}).code, kDone);
    EXPECT_EQ(identified(plate, {"--map", "yes=ja", "--map", "yes=Ja"}).code, kBadInput);
}

TEST_F(SheetsAsWritten, ATableOfValuesNeedsNeitherStructuresNorAQuantity) {
    EXPECT_EQ(
        cospot({"learn", file("a.csv", "compound,system,Rf,run\nethanol,silica,0.32,p3\n")}).code,
        kDone);
    EXPECT_EQ(cospot({"learn", "--quantity", "Rf",
                      file("b.csv", "compound,system,value,run\nethanol,silica,0.31,p4\n")})
                  .code,
              kDone);
    EXPECT_TRUE(holds(cospot({"show", "ethanol"}).out, "3 values")) << "all three are there";
    const Outcome unknown =
        cospot({"learn", file("c.csv", "compound,system,Rf\nwater,silica,0.1\n")});
    EXPECT_EQ(unknown.code, kBadInput);
    EXPECT_TRUE(holds(unknown.err, "\"water\" without a structure")) << unknown.err;
    const Outcome two =
        cospot({"learn", file("d.csv", "compound,system,Rf,k\nethanol,silica,0.1,2\n")});
    EXPECT_TRUE(holds(two.err, "the columns Rf and k")) << two.err;
    const Outcome missing = cospot({"learn", file("e.csv", "compound,value\nethanol,0.1\n")});
    EXPECT_TRUE(holds(missing.err, "column quantity: found a header without it: ")) << missing.err;
    const Outcome contrary = cospot({"learn", "--quantity", "k", path("a.csv")});
    EXPECT_TRUE(holds(contrary.err, "a column Rf with --quantity k")) << contrary.err;
}

TEST_F(SheetsAsWritten, WithPartialAnUnknownStandardIsLeftOut) {
    const std::string plate =
        file("p.csv", "lane,label,distance_mm,front_mm,role\n1,ethanol,21,70,standard\n"
                      "2,mystery,30,70,standard\n");
    EXPECT_EQ(cospot({"learn", plate, "--system", "silica"}).code, kBadInput);
    const Outcome learned = cospot({"learn", plate, "--system", "silica", "--partial"});
    EXPECT_EQ(learned.code, kNeedsAttention) << learned.err;
    EXPECT_TRUE(holds(learned.err, "lane 2 of p is left out: ")) << learned.err;
    EXPECT_TRUE(holds(cospot({"show", "ethanol"}).out, "2 values"));
    // Nothing that could be learned is a fault.
    const std::string none = file("q.csv", "lane,label,distance_mm,front_mm,role\n"
                                           "2,mystery,30,70,standard\n");
    EXPECT_EQ(cospot({"learn", none, "--system", "silica", "--partial"}).code, kBadInput);
}

TEST_F(SheetsAsWritten, StandardsWithoutARoleAreNoticed) {
    const std::string text = "lane,label,distance_mm,front_mm\n1,ethanol,21,70\n2,x,22,70\n";
    const Outcome unmarked = identified(text);
    EXPECT_TRUE(holds(unmarked.out, "give --standards ethanol")) << unmarked.out;
    const std::string plate = file("p.csv", text);
    const Outcome refused = cospot({"learn", plate, "--system", "silica"});
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_TRUE(holds(refused.err, "give --standards ethanol")) << refused.err;
    const Outcome marked = identified(text, {"--standards", "ethanol"});
    EXPECT_TRUE(holds(marked.out, "the standard on lane 1")) << marked.out;
    EXPECT_FALSE(holds(marked.out, "--standards")) << marked.out;
    EXPECT_EQ(cospot({"learn", plate, "--system", "silica", "--standards", "ethanol"}).code, kDone);
    EXPECT_LT(cospot({"purity", plate, "--system", "silica", "--declared", "ethanol", "--standards",
                      "ethanol"})
                  .code,
              kBadInput);
}

TEST_F(SheetsAsWritten, SynonymsThatWereLearnedAreCounted) {
    const std::string names =
        file("n.csv", "compound,smiles,synonyms\nethanol,CCO,alcohol|spirit\n");
    const auto learned = cospot({"--json", "learn", names}).lines();
    EXPECT_EQ(learned.at(0).at("synonyms_added"), 2);
    const Outcome again = cospot({"learn", names});
    EXPECT_TRUE(holds(again.out, "Synonyms")) << again.out;
}

TEST_F(SheetsAsWritten, PoolFindsATargetByItsOldName) {
    ASSERT_EQ(cospot({"rename", "toluene", "methylbenzene"}).code, kDone);
    const std::string fractions = file("f.csv", "fraction,Rf\n1,0.60\n2,0.60\n3,0.30\n");
    const auto target = [&](const std::string &name) {
        const auto lines =
            cospot({"--json", "pool", fractions, "--system", "silica", "--target", name}).lines();
        for (const auto &line : lines) {
            if (line.contains("target") && line["target"].is_object()) {
                return line["target"]["component"];
            }
        }
        return nlohmann::json();
    };
    EXPECT_FALSE(target("methylbenzene").is_null());
    EXPECT_EQ(target("toluene"), target("methylbenzene"));
}

TEST_F(SheetsAsWritten, AStructureThatWasCorrectedBackIsNotWrong) {
    ASSERT_EQ(cospot({"rename", "ethanol", "--smiles", "CCCO", "--reason", "a slip"}).code, kDone);
    ASSERT_EQ(cospot({"rename", "ethanol", "--smiles", "CCO", "--reason", "was right"}).code,
              kDone);
    const std::string shown = cospot({"show", "ethanol"}).out;
    EXPECT_TRUE(holds(shown, "Wrong structure")) << shown;
    EXPECT_TRUE(holds(shown, "CCCO (")) << shown;
    EXPECT_FALSE(holds(shown, " CCO (")) << shown;
    EXPECT_EQ(shown.find("Wrong structure", shown.find("Wrong structure") + 1), std::string::npos);
}

TEST_F(SheetsAsWritten, AStandardThatIsMissingInTheCoSpotIsNoEvidence) {
    const Outcome outcome = identified("lane,label,distance_mm,front_mm,role\n"
                                       "1,reaction,12,65,sample\n2,benzene,26,65,standard\n"
                                       "3,reaction + benzene,12.2,65,cospot\n");
    EXPECT_EQ(outcome.code, kNeedsAttention);
    EXPECT_TRUE(holds(outcome.out,
                      "the standard's spot is missing there (13.8 mm from the one spot "
                      "on its own lane), so it can't be judged"))
        << outcome.out;
    EXPECT_FALSE(holds(outcome.out, "they run together")) << outcome.out;
}

} // namespace
} // namespace cospot
