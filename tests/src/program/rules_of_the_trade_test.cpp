// What every practitioner knows about the order of retention, asked of what the program states
// where nothing was measured. Common practice, no source, unless a source is named. The library is
// that of the demo (tools/demo-data, invented).
#include "published_fixture.h"

#include <fmt/format.h>

#include <map>

namespace cospot::published {
namespace {

using Json = nlohmann::json;

const std::string kDemoData = COSPOT_DEMO_DATA;

class RulesOfTheTradeTest : public PublishedTest {
protected:
    RulesOfTheTradeTest() {
        const Outcome learned =
            cospot({"learn", "--systems", kDemoData + "/systems.csv", kDemoData + "/library.csv"});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    /// What `predict` says of one compound or structure on one system.
    Json retention(const std::string &target, const std::string &system) const {
        const Outcome outcome = cospot({"--json", "predict", target, "--system", system});
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome.lines().at(0).at("retention").at(0);
    }

    /// What is expected from structure; the demo library holds none of these.
    std::vector<double> predicted(std::vector<std::string> structures,
                                  const std::string &system) const {
        structures.insert(structures.begin(), {"--json", "predict", "--system", system});
        std::vector<double> values;
        for (const Json &line : cospot(structures).lines()) {
            const Json &said = line["retention"][0];
            EXPECT_EQ(said["basis"], "predicted") << line["compound"];
            values.push_back(said.value("expected", 0.0));
        }
        return values;
    }

    /// How strongly silica holds each structure, for rank order.
    std::vector<double> held_by_silica(std::vector<std::string> structures) const {
        structures.insert(structures.begin(), {"--json", "predict", "--system", "silica-HEA41"});
        std::vector<double> energies;
        for (const Json &line : cospot(structures).lines()) {
            energies.push_back(line["silica_adsorption"]["energy"]);
        }
        return energies;
    }

    /// The warnings of `resolve` for a compound that leaves first and one that leaves last.
    std::string order_warnings(const std::string &phase, const std::string &first,
                               const std::string &last) const {
        const std::string readings =
            file("readings.csv", "compound,fraction,k\n" + first + ",0.4,1.6\n" + first +
                                     ",0.5,1.3\n" + first + ",0.6,1.0\n" + last + ",0.4,9\n" +
                                     last + ",0.5,6\n" + last + ",0.6,4\n");
        const Outcome outcome = cospot({"--json", "resolve", readings, "--phase", phase});
        EXPECT_NE(outcome.code, kBadInput) << outcome.err;
        std::string warnings;
        for (const Json &line : outcome.lines()) {
            warnings += line.value("warnings", Json::array()).dump();
        }
        return warnings;
    }
};

// Each series of structures of like size goes from the least polar class to the most polar one.
TEST_F(RulesOfTheTradeTest, OnSilicaTheMorePolarCompoundStaysLower) {
    const std::vector<std::vector<std::string>> series{
        {"CCc1ccccc1", "CCOc1ccccc1", "CCC(=O)c1ccccc1", "CC(O)c1ccccc1", "OC(=O)c1ccccc1"},
        {"CCCCCCCCC", "CCCCOCCCC", "CCCCCCCC(C)=O", "CCCCCCCCCO", "CCCCCCCC(=O)O"}};
    for (const auto &members : series) {
        const auto energies = held_by_silica(members);
        ASSERT_EQ(energies.size(), members.size());
        for (const char *system : {"silica-HEA41", "silica-DM201"}) {
            const auto rfs = predicted(members, system);
            ASSERT_EQ(rfs.size(), members.size());
            for (std::size_t next = 1; next < members.size(); ++next) {
                const std::string pair = members[next - 1] + " before " + members[next];
                EXPECT_LT(energies[next - 1], energies[next]) << pair;
                EXPECT_GT(rfs[next - 1], rfs[next]) << pair << " on " << system;
            }
        }
    }
}

// A spot that runs too low needs a stronger eluent, one too high a weaker one, and the stronger
// solvent of the two is the more polar one, in whatever order they are written.
TEST_F(RulesOfTheTradeTest, ColumnRaisesASpotWithMoreOfTheMorePolarSolvent) {
    const std::vector<std::pair<std::string, std::string>> solvents{
        {"hexane", "ethyl acetate"},     {"cyclohexane", "acetone"},   {"toluene", "ethyl acetate"},
        {"dichloromethane", "methanol"}, {"hexane", "diethyl ether"},  {"toluene", "acetone"},
        {"chloroform", "methanol"},      {"ethyl acetate", "methanol"}};
    const auto change_at = [&](const std::string &rf, const std::string &eluent) {
        const Outcome outcome =
            cospot({"--json", "column", file("s.csv", "compound,Rf,role\na," + rf + ",target\n"),
                    "--eluent", eluent});
        EXPECT_NE(outcome.code, kBadInput) << outcome.err;
        return outcome.lines().back().at("eluent");
    };
    for (const auto &[less, more] : solvents) {
        for (const std::string &eluent :
             {fmt::format("{}:{} 1:1", less, more), fmt::format("{}:{} 1:1", more, less)}) {
            const Json low = change_at("0.07", eluent);
            EXPECT_EQ(low["change"], "stronger") << eluent;
            EXPECT_EQ(low["strong_solvent"], more) << eluent;
            EXPECT_EQ(change_at("0.75", eluent)["change"], "weaker") << eluent;
        }
    }
}

// The library holds many compounds in hexane with 20 % of ethyl acetate. In mixtures with 10 % and
// with 50 % it holds squalene alone, which runs with the front of all three: what is said of the
// others there may be wide, but must leave room for the rule.
TEST_F(RulesOfTheTradeTest, PredictLeavesRoomForAllToRunHigherInAMorePolarEluent) {
    const std::string squalene =
        R"(squalene,CC(C)=CCC/C(C)=C/CC/C(C)=C/CC/C=C(\C)CC/C=C(\C)CCC=C(C)C,)";
    const Outcome learned =
        cospot({"learn", "--systems",
                file("mixtures.csv", "system,technique,stationary_phase,mobile_phase\n"
                                     "less,tlc,silica gel,hexane:ethyl acetate 9:1\n"
                                     "more,tlc,silica gel,hexane:ethyl acetate 1:1\n"),
                file("front.csv", "compound,smiles,system,quantity,value,run\n" + squalene +
                                      "less,Rf,0.98,a\n" + squalene + "more,Rf,0.98,b\n")});
    ASSERT_EQ(learned.code, kDone) << learned.err;
    for (const char *compound : {"coumarin", "vanillin", "benzoin", "acetophenone", "anisole"}) {
        const double between = retention(compound, "silica-HEA41")["expected"];
        const Json less = retention(compound, "less");
        const Json more = retention(compound, "more");
        if (!less.contains("refused")) {
            EXPECT_LT(less["low"], between) << compound << " with less ethyl acetate: " << less;
        }
        if (!more.contains("refused")) {
            EXPECT_GT(more["high"], between) << compound << " with more ethyl acetate: " << more;
        }
    }
}

// Of benzyl alcohol and naphthalene the alcohol leaves a reversed phase first and silica last;
// exchanged labels contradict that.
TEST_F(RulesOfTheTradeTest, AReversedPhaseTurnsTheOrderRound) {
    const std::string contradiction = "against what their structures say";
    const std::string polar = "benzyl alcohol";
    const std::string other = "naphthalene";
    EXPECT_HOLDS(order_warnings("reversed", other, polar), contradiction);
    EXPECT_HOLDS(order_warnings("normal", polar, other), contradiction);
    EXPECT_EQ(order_warnings("reversed", polar, other).find(contradiction), std::string::npos);
    EXPECT_EQ(order_warnings("normal", other, polar).find(contradiction), std::string::npos);
}

/// What was counted over pairs of compounds.
struct Pairs {
    int all = 0;
    int ordered = 0;
};

// crc, read: boiling points (K) of compounds that the demo library does not hold. Pairs that lie 30
// K or more apart are counted.
TEST_F(RulesOfTheTradeTest, OnNonPolarPhasesTheOrderIsThatOfBoilingPoints) {
    const std::vector<std::pair<std::string, double>> compounds{{"CCCCCCCC", 398.77},
                                                                {"CCCCCCCCCC", 447.25},
                                                                {"CCc1ccccc1", 409.35},
                                                                {"C=Cc1ccccc1", 418.45},
                                                                {"Clc1ccccc1", 404.75},
                                                                {"Brc1ccccc1", 429.05},
                                                                {"Ic1ccccc1", 461.65},
                                                                {"c1ccc(-c2ccccc2)cc1", 528.35},
                                                                {"c1ccc2ncccc2c1", 510.25},
                                                                {"N#Cc1ccccc1", 464.15},
                                                                {"[O-][N+](=O)c1ccccc1", 483.85},
                                                                {"Nc1ccccc1", 457.25},
                                                                {"Oc1ccccc1", 454.95},
                                                                {"Cc1ccc(O)cc1", 475.05},
                                                                {"c1ccc2[nH]ccc2c1", 527.15},
                                                                {"CCCCCCO", 430.05},
                                                                {"OC1CCCCC1", 434.05}};
    std::vector<std::string> structures;
    for (const auto &compound : compounds) {
        structures.push_back(compound.first);
    }
    for (const char *system : {"dimethylsilicone-120C", "phenyl5-60to280C"}) {
        const auto indices = predicted(structures, system);
        ASSERT_EQ(indices.size(), compounds.size());
        Pairs pairs;
        std::string turned;
        for (std::size_t a = 0; a < compounds.size(); ++a) {
            for (std::size_t b = 0; b < compounds.size(); ++b) {
                if (compounds[b].second - compounds[a].second < 30.0) {
                    continue;
                }
                ++pairs.all;
                if (indices[a] < indices[b]) {
                    ++pairs.ordered;
                } else {
                    turned += "\n  " + compounds[a].first + " behind " + compounds[b].first;
                }
            }
        }
        EXPECT_GE(pairs.ordered, 0.9 * pairs.all)
            << pairs.ordered << " of " << pairs.all << " pairs in order on " << system << turned;
    }
}

// The same with measured indices: rosemary oil (kowalski2019, published_values.h) against boiling
// points from structure.
TEST_F(RulesOfTheTradeTest, PublishedIndicesOnANonPolarPhaseFollowBoilingPointsFromStructure) {
    std::string values;
    for (const auto &[compound, index] : kKowalski2019) {
        values += row(compound, "oil", "RI", index, "published");
    }
    learn_anew("oil,gc,non-polar silicone,helium,n-alkane,temperature programme as published,\n",
               values);
    const Outcome outcome = cospot({"--json", "distil", "--system", "oil"});
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    const Json order = outcome.lines().at(0);
    EXPECT_EQ(order["polar"], false);
    EXPECT_EQ(order["pairs"], 171);
    EXPECT_GE(order["ordered_pairs"], 140) << order["ordered_pairs"];
}

// On a polar phase it fails: of the wine esters (published_values.h) ethyl lactate boils 14 K below
// ethyl hexanoate (crc: 427 and 441 K, from memory) and leaves behind it.
TEST_F(RulesOfTheTradeTest, DistilSaysThatThisOrderFailsOnAPolarPhase) {
    std::string values;
    for (const MeasuredAndQuoted &ester : kWineEsters) {
        values += row(ester.compound, "wax", "RI", ester.measured, "published");
    }
    learn_anew("wax,gc,polyethylene glycol,helium,n-alkane,temperature programme as published,\n",
               values);
    const Outcome outcome = cospot({"--json", "distil", "--system", "wax"});
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.err;
    const Json order = outcome.lines().at(0);
    EXPECT_EQ(order["polar"], true);
    std::map<std::string, Json> by_name;
    for (const Json &compound : order["compounds"]) {
        by_name[compound["compound"]] = compound;
    }
    const Json &lactate = by_name.at("ethyl lactate");
    const Json &hexanoate = by_name.at("ethyl hexanoate");
    EXPECT_LT(lactate["expected_place"], hexanoate["expected_place"]);
    EXPECT_GT(lactate["place"], hexanoate["place"]);
}

} // namespace
} // namespace cospot::published
