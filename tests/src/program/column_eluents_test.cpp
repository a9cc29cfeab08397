// column: eluents as laboratories write them, and how much of them. All samples are invented.
#include "program_fixture.h"

namespace cospot {
namespace {

using Json = nlohmann::json;

constexpr const char *kCrude = "compound,Rf,role,amount_mg\n"
                               "ketone,0.62,impurity,80\n"
                               "alcohol,0.31,target,300\n";

class ColumnEluentsTest : public ProgramTest {
protected:
    void learn_mixtures() const {
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("systems.csv", "system,technique,stationary phase,mobile phase\n"
                                        "ea10,tlc,silica gel,EtOAc:hexane 10:90\n"
                                        "ea40,tlc,silica gel,hexane:ethyl acetate 60:40\n"),
                    file("values.csv", "compound,smiles,system,quantity,value,run\n"
                                       "alcohol,CCCO,ea10,Rf,0.09,r1\n"
                                       "alcohol,CCCO,ea40,Rf,0.30,r1\n"
                                       "arene,c1ccccc1,ea10,Rf,0.65,r1\n"
                                       "arene,c1ccccc1,ea40,Rf,0.80,r1\n")});
        ASSERT_EQ(learned.code, kDone) << learned.err;
    }

    Outcome column(std::vector<std::string> options) const {
        options.insert(options.begin(), {"column", file("sample.csv", kCrude)});
        return cospot(options);
    }

    Json plan(std::vector<std::string> options) const {
        options.insert(options.begin(), {"--json", "column", file("sample.csv", kCrude)});
        const Outcome outcome = cospot(options);
        EXPECT_NE(outcome.code, kBadInput) << outcome.err;
        return outcome.lines().back();
    }
};

TEST_F(ColumnEluentsTest, TheEluentOfACartridgeIsThatOfItsSilica) {
    // 25 g of silica, 50 mL of bed, are a bed of 150 mm and 20.6 mm: 200 mL for 20 mm, 400 mL for
    // 30 mm (W. C. Still, M. Kahn, A. Mitra, J. Org. Chem. 1978, 43, 2923, Table I).
    const double eluent_ml = plan({"--silica-g", "25"}).at("eluent_mL");
    EXPECT_GT(eluent_ml, 200.0);
    EXPECT_LT(eluent_ml, 220.0);
    EXPECT_EQ(plan({}).at("eluent_mL"),
              nullptr); // then the table's own column is meant
    EXPECT_NEAR(plan({"--diameter-mm", "30"}).at("eluent_mL").get<double>(), 400.0, 1e-6);
    const std::string out = column({"--silica-g", "25"}).out;
    EXPECT_EQ(out.find("116.754"), std::string::npos) << out;
    EXPECT_HOLDS(out, "117\n");
    EXPECT_HOLDS(out, "plate number 117");
}

TEST_F(ColumnEluentsTest, EluentsAreUnderstoodAsLaboratoriesWriteThem) {
    const auto eluent = [&](const std::string &text) {
        return plan({"--eluent", text}).at("eluent");
    };
    for (const char *text : {"PE/EE 4:1", "Cyclohexan/Ethylacetat 4:1", "Hex-EtOAc 4:1",
                             "PE 40/60/EE 4:1", "EE 1:4 PE", "4:1 Petrolether/Essigester"}) {
        EXPECT_EQ(eluent(text).at("strong_solvent"), "ethyl acetate") << text;
        EXPECT_TRUE(eluent(text).at("doubts").empty()) << text;
    }
    EXPECT_EQ(eluent("DCM/MeOH 95:5 + 1% Et3N").at("strong_solvent"), "methanol");
    const Json unknown = eluent("PE/XYZ 4:1");
    EXPECT_EQ(unknown.at("strong_solvent"), nullptr);
    EXPECT_HOLDS(unknown.at("doubts").at(0).get<std::string>(), "\"XYZ\" is not understood");
    EXPECT_HOLDS(on_one_line(column({"--eluent", "PE/XYZ 4:1"}).out),
                 "Which solvent makes this eluent stronger is not known: \"XYZ\"");
}

TEST_F(ColumnEluentsTest, MixturesOfOneKindAreFoundUnderAllNamesOfTheirSolvents) {
    learn_mixtures();
    const Outcome learned =
        cospot({"learn", "--systems",
                file("more.csv", "system,technique,stationary phase,mobile phase\n"
                                 "ee20,tlc,silica gel,Hexan/EE 4:1\n"
                                 "odd,tlc,silica gel,Hexan/XYZ 4:1\n"),
                file("v.csv", "compound,system,quantity,value,run\nalcohol,ee20,Rf,0.16,q\n")});
    ASSERT_EQ(learned.code, kDone) << learned.err;
    EXPECT_HOLDS(learned.err, "system odd: \"XYZ\" in its mobile phase is not understood");
    const Json answer = cospot({"--json", "column", "--system", "ea40", "--compounds",
                                "alcohol,arene", "--target", "alcohol"})
                            .lines()
                            .back();
    std::vector<std::string> mixtures;
    for (const Json &one : answer.at("eluent").at("mixtures")) {
        mixtures.push_back(one.at("mobile_phase"));
    }
    EXPECT_EQ(mixtures.size(), 3U);
    EXPECT_EQ(mixtures.at(1), "Hexan/EE 4:1"); // between 10 and 40 per cent
}

} // namespace
} // namespace cospot
