// column: a preparative column planned from a plate.
#include "program_fixture.h"

#include <cstdio>

namespace cospot {
namespace {

using Json = nlohmann::json;

/// An invented sample.
constexpr const char *kSample = "compound,Rf,role,amount_mg\n"
                                "diol,0.12,impurity,20\n"
                                "ketone,0.62,impurity,80\n"
                                "alcohol,0.31,target,300\n";

class ColumnTest : public ProgramTest {
protected:
    /// A library of three compounds in four mixtures of two solvents; "ether 4" runs at Rf 0.08,
    /// 0.14, 0.44 and 0.60 in them.
    void learn_mixtures() const {
        std::string values = "compound,smiles,system,quantity,value,run\n";
        const auto add = [&](const std::string &name, const std::string &smiles,
                             const std::vector<double> &rfs) {
            const std::vector<std::string> systems{"ea5", "ea10", "ea40", "ea60"};
            for (std::size_t i = 0; i < systems.size(); ++i) {
                for (const char *run : {"r1", "r2"}) {
                    values += "\"" + name + "\"," + smiles + "," + systems[i] + ",Rf," +
                              std::to_string(rfs[i]) + "," + run + "\n";
                }
            }
        };
        add("ether, 4", "CCOCC", {0.08, 0.14, 0.44, 0.60});
        add("alcohol", "CCCO", {0.05, 0.09, 0.30, 0.45});
        add("arene", "c1ccccc1", {0.60, 0.65, 0.80, 0.85});
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("systems.csv", "system,technique,stationary_phase,mobile_phase\n"
                                        "ea5,tlc,silica gel,hexane:ethyl acetate 95:5\n"
                                        "ea10,tlc,silica gel,EtOAc:hexane 10:90\n"
                                        "ea40,tlc,silica gel,hexane:ethyl acetate 60:40\n"
                                        "ea60,tlc,silica gel,hexane:ethyl acetate 40:60\n"
                                        "other,tlc,silica gel,toluene:ethyl acetate 60:40\n"
                                        "oven,gc,polyethylene glycol,helium\n"),
                    file("values.csv", values)});
        ASSERT_EQ(learned.code, kDone) << learned.err;
    }

    Outcome column(const std::string &content, std::vector<std::string> options = {}) const {
        options.insert(options.begin(), {"column", file("sample.csv", content)});
        return cospot(options);
    }

    std::vector<Json> json(const std::string &content,
                           std::vector<std::string> options = {}) const {
        options.insert(options.begin(), {"--json", "column", file("sample.csv", content)});
        const Outcome outcome = cospot(options);
        EXPECT_NE(outcome.code, kBadInput) << outcome.err;
        return outcome.lines();
    }

    /// The message about bad input; nothing was printed.
    static std::string fault(const Outcome &outcome) {
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_EQ(outcome.out, "");
        return outcome.err;
    }
};

TEST_F(ColumnTest, PlansFromATableAlone) {
    const Outcome outcome = column(kSample);
    EXPECT_EQ(outcome.code, kDone) << outcome.out << outcome.err;
    const std::string out = unwrapped(outcome.out);
    for (const char *expected :
         {"CV = 1/Rf = 1 + k", "Collect fractions 16–25 for alcohol (",
          "Intervals hold in 95 of 100 runs", "No run of this column has been learned",
          "With one run of this column learned",
          "for neighbours 0.1 apart in Rf (here 0.19) the sample takes 32 mm", "keep the eluent",
          "J. Org. Chem. 1978, 43, 2923, Table I", "Dry silica"}) {
        EXPECT_NE(out.find(expected), std::string::npos) << expected << outcome.out;
    }
    EXPECT_LT(out.find("A  ketone"), out.find("B  alcohol"));
    expect_fits_screen(outcome.out);
}

TEST_F(ColumnTest, JsonTellsBandsColumnAndAdvice) {
    const auto lines =
        json(kSample, {"--diameter-mm", "30", "--plates", "200", "--fraction-ml", "20", "--load-mg",
                       "360", "--eluent", "hexane:ethyl acetate 3:1"});
    ASSERT_EQ(lines.size(), 4U);
    const Json &alcohol = lines[1];
    EXPECT_EQ(alcohol["compound"], "alcohol");
    EXPECT_EQ(alcohol["role"], "target");
    EXPECT_NEAR(alcohol["column_volumes"], 1.0 / 0.31, 1e-9);
    EXPECT_NEAR(alcohol["k"], 1.0 / 0.31 - 1.0, 1e-9);
    // 0.8 of 7.069 cm2 times 15 cm, worked by hand.
    EXPECT_NEAR(lines[3]["column_volume_mL"], 84.8, 0.1);
    // 8 mL outside the bed, k 2.226 on the plate, 1.5 times as much on the column, worked by hand.
    EXPECT_NEAR(alcohol["volume_mL"], 8.0 + 84.82 * (1.0 + 1.5 * 2.226), 0.2);
    EXPECT_NEAR(lines[3]["hold_up_mL"], 92.8, 0.1);
    EXPECT_NEAR(lines[3]["outside_mL"], 8.0, 1e-9);
    EXPECT_EQ(lines[3]["hold_ratio"], 1.5);
    EXPECT_EQ(alcohol["volume_basis"], "assumed");
    // Of the overload 300 mg on 53 g, of 200 plates, of 2.8 mL of mixing.
    EXPECT_NEAR(alcohol["sigma_mL"], std::hypot(368.0 / std::sqrt(200.0), 2.8, 29.2), 1.5);
    const auto fraction_of = [](double ml) { return static_cast<int>(ml / 20.0) + 1; };
    EXPECT_EQ(alcohol["first_fraction"], fraction_of(alcohol["start_mL"]));
    EXPECT_EQ(alcohol["last_fraction"], fraction_of(alcohol["end_mL"]));
    EXPECT_EQ(alcohol["first_fraction_95"], fraction_of(alcohol["whole_low_mL"]));
    EXPECT_EQ(alcohol["last_fraction_95"], fraction_of(alcohol["whole_high_mL"]));
    EXPECT_EQ(lines[3]["record"], "column");
    EXPECT_EQ(lines[3]["target"], "alcohol");
    EXPECT_EQ(lines[3]["advice"]["place"], "within table");
    EXPECT_EQ(lines[3]["eluent"]["change"], "keep");
    EXPECT_EQ(lines[3]["eluent"]["strong_solvent"], "ethyl acetate");
    EXPECT_FALSE(lines[3]["needs_attention"]);
}

TEST_F(ColumnTest, SaysWhatItsIntervalsHoldAndWhereTheyComeFrom) {
    const auto lines = json(kSample, {"--silica-g", "25"});
    const Json &ketone = lines[0];
    const Json &column = lines[3];
    EXPECT_LT(ketone["whole_low_mL"], ketone["middle_low_mL"]);
    EXPECT_LT(ketone["middle_low_mL"], ketone["middle_mL"]);
    EXPECT_LT(ketone["middle_mL"], ketone["middle_high_mL"]);
    EXPECT_LT(ketone["middle_high_mL"], ketone["whole_high_mL"]);
    EXPECT_NEAR(
        ketone["middle_factor"],
        std::sqrt(ketone["middle_high_mL"].get<double>() / ketone["middle_low_mL"].get<double>()),
        1e-9);
    EXPECT_EQ(column["interval_percent"], 95.0);
    EXPECT_EQ(column["silica_g"], 25.0);
    EXPECT_TRUE(column["bed_mm"].is_null());
    EXPECT_TRUE(column["own_column"].is_null());
    ASSERT_GE(column["band_model"].size(), 10U);
    for (const Json &row : column["band_model"]) {
        EXPECT_NE(row["reason"], "") << row;
        EXPECT_EQ(row["origin"], "assumed") << row;
    }
    EXPECT_GT(column["one_run"]["factor_now"], column["one_run"]["factor_other_compound"]);
    EXPECT_GT(column["one_run"]["factor_other_compound"],
              column["one_run"]["factor_same_compound"]);
    // Nothing of it without a size of the column.
    const auto unknown = json("compound,Rf\na,0.3\n");
    EXPECT_TRUE(unknown[0]["middle_mL"].is_null());
    EXPECT_TRUE(unknown[1]["one_run"].is_null());
    EXPECT_TRUE(unknown[1]["band_model"].empty());
}

TEST_F(ColumnTest, VolumesThatAreGivenAreUsed) {
    const auto volume = [&](const std::vector<std::string> &options) {
        return json("compound,Rf\na,0.9\n", options)[0]["volume_mL"].get<double>();
    };
    const double assumed = volume({"--silica-g", "25"});
    EXPECT_NEAR(volume({"--silica-g", "25", "--outside-ml", "1"}), assumed - 7.0, 0.1);
    EXPECT_GT(volume({"--silica-g", "25", "--column-volume-ml", "70"}), assumed + 5.0);
    const double near_front = volume({"--column-volume-ml", "48"});
    EXPECT_NEAR(near_front, assumed, 0.5);
}

TEST_F(ColumnTest, AnEluentThatDoesNotSeparateIsNotToBeKept) {
    const Outcome close = column("compound,Rf,role\nproduct,0.32,target\nalcohol,0.24,\n",
                                 {"--eluent", "hexane:ethyl acetate 4:1"});
    const std::string out = unwrapped(close.out);
    EXPECT_NE(out.find("! product and alcohol differ by less than 0.1"), std::string::npos) << out;
    EXPECT_EQ(out.find("keep the eluent"), std::string::npos) << out;
    EXPECT_NE(out.find("other solvents are wanted"), std::string::npos) << out;
}

TEST_F(ColumnTest, SaysWhichSolventToChangeAndWarns) {
    const Outcome high = column("compound,Rf,role\na,0.66,target\nb,0.6,\n",
                                {"--eluent", "dichloromethane:MeOH 20:1"});
    EXPECT_EQ(high.code, kNeedsAttention);
    const std::string out = unwrapped(high.out);
    EXPECT_NE(out.find("take a weaker eluent: less methanol"), std::string::npos) << high.out;
    EXPECT_NE(out.find("! a and b differ by less than 0.1"), std::string::npos) << high.out;
    EXPECT_NE(out.find("outside 0.1 to 0.5"), std::string::npos) << high.out;
    EXPECT_NE(out.find("No column is advised"), std::string::npos) << high.out;
    const Outcome unknown =
        column("compound,Rf,role\na,0.11,target\n", {"--eluent", "no such solvent:hexane 1:1"});
    EXPECT_NE(unwrapped(unknown.out).find("take a stronger eluent"), std::string::npos);
    EXPECT_EQ(unknown.code, kDone) << unknown.err;
}

// The rack says of each tube what the table of fractions says.
TEST_F(ColumnTest, TheRackHoldsThePlannedFractions) {
    const auto lines = json(kSample, {"--diameter-mm", "40"});
    const std::string out = column(kSample, {"--diameter-mm", "40"}).out;
    std::string tubes; // a letter a tube, '-' where nothing is expected
    std::istringstream in(out);
    for (std::string line; std::getline(in, line);) {
        int first = 0;
        int last = 0;
        if (std::sscanf(line.c_str(), " tubes %d to %d: nothing", &first, &last) == 2) {
            tubes.append(static_cast<std::size_t>(last - first + 1), '-');
        }
        const std::size_t begin = line.find('|');
        const std::size_t end = line.rfind('|');
        if (begin != std::string::npos) {
            std::istringstream cells(line.substr(begin + 1, end - begin));
            for (std::string cell; std::getline(cells, cell, '|');) {
                const std::size_t letter = cell.find_first_of("ABC");
                tubes += letter == std::string::npos ? '-' : cell[letter];
            }
        }
    }
    ASSERT_EQ(tubes.size(), lines[2]["last_fraction"].get<std::size_t>()) << out;
    for (std::size_t i = 0; i < 3; ++i) { // they do not overlap
        const char letter = "ABC"[i];
        EXPECT_EQ(tubes.find(letter) + 1, lines[i]["first_fraction"]) << out;
        EXPECT_EQ(tubes.rfind(letter) + 1, lines[i]["last_fraction"]) << out;
    }
}

TEST_F(ColumnTest, TheRackHoldsEvenTheNarrowestBand) {
    const std::string out = column(kSample, {"--plates", "1000000"}).out;
    EXPECT_NE(out.find("| B |"), std::string::npos) << out;
}

TEST_F(ColumnTest, ARackTooLongToDrawIsSaid) {
    const std::string out = column(kSample, {"--diameter-mm", "40", "--fraction-ml", "0.05"}).out;
    EXPECT_NE(out.find("The rack is not drawn"), std::string::npos) << out;
    EXPECT_EQ(out.find("| B |"), std::string::npos);
}

TEST_F(ColumnTest, SaysWhatIsCollectedBeforeFractionOne) {
    const Outcome outcome = column(kSample, {"--diameter-mm", "40", "--discarded-ml", "600"});
    EXPECT_NE(outcome.out.find(" discarded "), std::string::npos) << outcome.out;
    EXPECT_NE(outcome.out.find("600 mL discarded, then tubes of"), std::string::npos);
    EXPECT_NE(outcome.out.find("up to "), std::string::npos) << outcome.out;
    EXPECT_NE(unwrapped(outcome.out)
                  .find("! alcohol begins to leave in the volume discarded before fraction 1"),
              std::string::npos)
        << outcome.out;
    EXPECT_EQ(outcome.code, kNeedsAttention);
    const Outcome early = column(kSample, {"--diameter-mm", "40", "--discarded-ml", "400"});
    EXPECT_NE(unwrapped(early.out).find("! alcohol may begin to leave in the volume discarded"),
              std::string::npos);
}

TEST_F(ColumnTest, StartAndFrontGetNoColumnVolume) {
    const auto lines = json("compound,Rf\nfront,1\nstart,0\na,0.3\n", {"--diameter-mm", "20"});
    EXPECT_EQ(lines[0]["column_volumes"], nullptr);
    EXPECT_EQ(lines[2]["first_fraction"], nullptr);
    EXPECT_EQ(lines[3]["warnings"][0]["kind"], "at_front");
    EXPECT_EQ(lines[3]["warnings"][1]["kind"], "at_start");
    EXPECT_EQ(column("compound,Rf\nstart,0\n").code, kNeedsAttention);
}

TEST_F(ColumnTest, MoreThanTheTableHoldsIsRunInPortions) {
    const Outcome outcome = column("compound,Rf,amount_mg\na,0.5,4000\nb,0.2,2000\n");
    EXPECT_EQ(outcome.code, kNeedsAttention);
    EXPECT_NE(unwrapped(outcome.out).find("run it in 3 portions"), std::string::npos)
        << outcome.out;
}

TEST_F(ColumnTest, TakesValuesAndOtherMixturesFromTheLibrary) {
    learn_mixtures();
    const Outcome outcome = cospot({"--json", "column", "--system", "ea10", "--compounds",
                                    "arene,ether, 4,alcohol", "--target", "ether, 4"});
    ASSERT_EQ(outcome.code, kNeedsAttention) << outcome.err; // alcohol runs too close
    const auto lines = outcome.lines();
    ASSERT_EQ(lines.size(), 4U);
    EXPECT_EQ(lines[1]["compound"], "ether, 4");
    EXPECT_NEAR(lines[1]["rf"], 0.14, 0.005);
    EXPECT_EQ(lines[1]["basis"], "measured");
    const Json &eluent = lines[3]["eluent"];
    EXPECT_EQ(eluent["change"], "stronger");
    ASSERT_EQ(eluent["mixtures"].size(), 4U); // not the one with toluene
    EXPECT_NEAR(eluent["mixtures"][1]["strong_fraction"], 0.10, 1e-9);
    EXPECT_NEAR(eluent["mixtures"][2]["rf"], 0.44, 0.005);
    // R_M 0.788 at 0.10 and 0.105 at 0.40: R_M 0.368 lies at 0.1 * 4^0.615, worked by hand.
    EXPECT_NEAR(eluent["between"]["strong_fraction"], 0.235, 0.005);
    EXPECT_EQ(eluent["between"]["mobile_phase"], "hexane:ethyl acetate 77:23");
    const Outcome text = cospot(
        {"column", "--system", "ea10", "--compounds", "arene;ether, 4", "--target", "ether, 4"});
    expect_fits_screen(text.out);
    EXPECT_NE(unwrapped(text.out).find("Rf 0.30 is expected in about hexane:ethyl acetate 77:23"),
              std::string::npos)
        << text.out;
    // Its own Rf and the library's mixtures go together too.
    EXPECT_EQ(json("compound,Rf,role\n\"ether, 4\",0.15,target\n", {"--system", "ea10"})
                  .back()["eluent"]["mixtures"]
                  .size(),
              4U);
}

TEST_F(ColumnTest, WhatTheLibraryDoesNotHoldIsRefused) {
    learn_mixtures();
    const auto ask = [&](const std::string &system, const std::string &compounds) {
        return fault(cospot({"column", "--system", system, "--compounds", compounds}));
    };
    EXPECT_NE(ask("none", "arene").find("--system"), std::string::npos);
    EXPECT_NE(ask("oven", "arene").find("shows no R_F"), std::string::npos);
    EXPECT_NE(ask("ea5", "arene,nothing").find("\"nothing\""), std::string::npos);
    EXPECT_NE(ask("ea5", "arene,arene").find("again"), std::string::npos);
    EXPECT_NE(ask("ea5", "").find("compounds of the library"), std::string::npos);
    EXPECT_NE(ask("other", "arene").find("can tell an R_F"), std::string::npos);
}

// The way back: plates of the fractions that are planned give the planned bands.
TEST_F(ColumnTest, PoolFindsThePlannedBandsAgain) {
    const auto plan = json(kSample, {"--diameter-mm", "40"});
    std::string table = "fraction,Rf\n";
    std::vector<bool> is_full(200);
    for (std::size_t i = 0; i < 3; ++i) {
        for (int number = plan[i]["first_fraction"]; number <= plan[i]["last_fraction"]; ++number) {
            table += std::to_string(number) + "," + plan[i]["rf"].dump() + "\n";
            is_full[static_cast<std::size_t>(number)] = true;
        }
    }
    for (int number = 1; number <= plan[2]["last_fraction"]; ++number) {
        table += is_full[static_cast<std::size_t>(number)] ? "" : std::to_string(number) + ",\n";
    }
    const auto pools =
        cospot({"--json", "pool", file("fractions.csv", table), "--target", "0.31"}).lines();
    ASSERT_EQ(pools.size(), 4U);
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(pools[i]["first"], plan[i]["first_fraction"]);
        EXPECT_EQ(pools[i]["last"], plan[i]["last_fraction"]);
        EXPECT_EQ(pools[i]["target"], plan[i]["role"] == "target");
    }
    EXPECT_FALSE(pools[3]["needs_attention"]);
}

TEST_F(ColumnTest, FaultsNamePlaceFoundAndExpected) {
    const std::vector<std::pair<std::string, std::string>> faults{
        {"", "an empty file"},
        {"compound,Rf\n", "a header without rows"},
        {"compound\na\n", "column Rf"},
        {"compound,Rf\na,1.5\n", "sample.csv:2, column Rf: found 1.5; expected an R_F from 0 to 1"},
        {"compound,Rf\na,-0.5\n", "column Rf"},
        {"compound,Rf\na,\n", "column Rf"},
        {"compound,Rf\n,0.5\n", "column compound"},
        {"compound,Rf\na,0.5\nA,0.4\n", "\"A\" again"},
        {"compound,Rf,role\na,0.5,target\nb,0.4,target\n", "a second target"},
        {"compound,Rf,role\na,0.5,main\n", "target, impurity or nothing"},
        {"compound,Rf,amount_mg\na,0.5,-1\n", "column amount_mg: found -1"}};
    for (const auto &[content, expected] : faults) {
        const std::string message = fault(column(content));
        EXPECT_NE(message.find(expected), std::string::npos) << expected << " in " << message;
    }
}

TEST_F(ColumnTest, OptionsThatCannotBeAreRefused) {
    const std::vector<std::vector<std::string>> wrong{
        {"--plates", "0"},
        {"--diameter-mm", "-1"},
        {"--bed-mm", "nan"},
        {"--load-mg", "inf"},
        {"--fraction-ml", "0"},
        {"--target", "nobody"},
        {"--eluent", "hexane:acetone 3:1:1"},
        {"--compounds", "a"},
        {"--silica-g", "-4"},
        {"--silica-g", "4", "--diameter-mm", "12"},
        {"--silica-g", "4", "--bed-mm", "60"},
        {"--outside-ml", "9", "--column-volume-ml", "8"},
        {"--column", "nobody's"}};
    for (const auto &options : wrong) {
        const std::string message = fault(column(kSample, options));
        EXPECT_NE(message.find(options.front()), std::string::npos) << message;
    }
    EXPECT_EQ(cospot({"column"}).code, kBadInput);
    EXPECT_EQ(cospot({"column", "--compounds", "a"}).code, kBadInput);
}

} // namespace
} // namespace cospot
