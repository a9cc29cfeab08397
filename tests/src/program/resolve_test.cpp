// resolve: composition of an isocratic run. All readings are invented.
#include "program_fixture.h"

namespace cospot {
namespace {

using Json = nlohmann::json;

const std::string kReadings = "compound,percent,k\n"
                              "caffeine,20,5.9\ncaffeine,35,2.2\ncaffeine,50,0.93\n"
                              "vanillin,20,4.8\nvanillin,35,2.4\nvanillin,50,1.25\n"
                              "coumarin,20,11.2\ncoumarin,35,4.1\ncoumarin,50,1.52\n";

class ResolveTest : public ProgramTest {
protected:
    Outcome resolve(const std::string &readings, std::vector<std::string> further = {}) const {
        further.insert(further.begin(), {"--json", "resolve", file("r.csv", readings)});
        return cospot(further);
    }

    std::string fault(const std::string &readings, std::vector<std::string> further = {}) const {
        const Outcome outcome = resolve(readings, std::move(further));
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_EQ(outcome.out, "");
        return outcome.err;
    }
};

TEST_F(ResolveTest, FindsTheFractionThatResolvesBest) {
    const Outcome outcome = resolve(kReadings, {"--hold-up", "1.2"});
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    const Json answer = outcome.lines().at(0);
    const Json &best = answer["best"];
    EXPECT_GT(best["resolution"], 1.5);
    EXPECT_EQ(best["outside_window"], 0);
    for (const Json &point : answer["curve"]) {
        if (point["outside_window"] == 0) {
            EXPECT_LE(point["resolution"], best["resolution"]);
        }
        EXPECT_EQ(point["k"].size(), 3U);
    }
    double last = 0.0;
    for (const Json &one : best["order"]) {
        EXPECT_GT(one["k"], last);
        EXPECT_NEAR(one["tR"], 1.2 * (1.0 + one["k"].get<double>()), 1e-9);
        EXPECT_LT(one["k_low"], one["k"]);
        EXPECT_GT(one["k_high"], one["k"]);
        last = one["k"];
    }
    ASSERT_EQ(answer["crossings"].size(), 1U);
    EXPECT_EQ(answer["crossings"][0]["first_below"], "vanillin");
    EXPECT_EQ(answer["crossings"][0]["first_above"], "caffeine");
}

TEST_F(ResolveTest, TimesAndFractionsReadLikeRetentionFactorsAndPercent) {
    const Json by_k =
        resolve("compound,fraction,k\na,0.3,3\na,0.5,1\nb,0.3,6\nb,0.5,1.5\n").lines().at(0);
    const Json by_time =
        resolve("compound;percent;tR\na;30;6\na;50;3\nb;30;10.5\nb;50;3.75\n", {"--hold-up", "1.5"})
            .lines()
            .at(0);
    EXPECT_NEAR(by_k["compounds"][1]["S"], by_time["compounds"][1]["S"], 1e-9);
    EXPECT_EQ(by_k["best"]["fraction"], by_time["best"]["fraction"]);
    EXPECT_NEAR(by_k["compounds"][0]["S"], std::log10(3.0) / 0.2, 1e-9);
    EXPECT_TRUE(by_k["scatter_log_k"].is_null()); // two readings tell nothing of spread
    EXPECT_FALSE(by_k["best"]["order"][0].contains("k_low"));
}

// teachingformulas, read: 10 min and 0.235 min at half height give 10041 plates, and so do 6 min
// and 0.141 min.
TEST_F(ResolveTest, PlateNumberComesFromWidthsUnlessGiven) {
    const std::string widths = "compound,fraction,tR,width_half\na,0.3,6,0.141\na,0.5,3,\n"
                               "b,0.3,10.5,\nb,0.5,3.75,\n";
    const Json answer = resolve(widths, {"--hold-up", "1.5"}).lines().at(0);
    EXPECT_NEAR(answer["plate_number"], 10041.0, 2.0);
    EXPECT_EQ(
        resolve(widths, {"--hold-up", "1.5", "--plates", "5000"}).lines().at(0)["plate_basis"],
        "as given");
    EXPECT_EQ(resolve(kReadings).lines().at(0)["plate_basis"], "assumed");
}

// snyder2007, formula read; numbers invented.
TEST_F(ResolveTest, GivesTheFractionForAWantedRetentionFactor) {
    const std::string line = "compound,fraction,k\nx,0.3,50.12\nx,0.7,1.259\n";
    const Json answer =
        resolve(line, {"--wanted-k", "7.943", "--compound", "X"}).lines().at(0)["wanted"];
    EXPECT_NEAR(answer["fraction"], 0.5, 1e-4);
    const Outcome far = resolve(line, {"--wanted-k", "0.2", "--compound", "x"});
    EXPECT_EQ(far.code, kNeedsAttention);
    EXPECT_TRUE(far.lines().at(0)["wanted"]["fraction"].is_null());
    const Json forced =
        resolve(line, {"--wanted-k", "0.2", "--compound", "x", "--extrapolate"}).lines().at(0);
    EXPECT_NEAR(forced["wanted"]["fraction"], 0.8997, 1e-3);
    EXPECT_TRUE(forced["wanted"]["outside_measured"]);
}

// snyder2007, gradient equation from memory; numbers invented: log kw 3.0, S 4 leave a gradient of
// 20 min after 16.915 min at 0.699.
TEST_F(ResolveTest, GivesTimesInAGradient) {
    const Json answer = resolve("compound,fraction,k\nx,0.5,10\nx,0.75,1\n",
                                {"--gradient", "0.05,0.95,20", "--dwell", "1", "--hold-up", "1.5"})
                            .lines()
                            .at(0)["gradient"]["compounds"][0];
    EXPECT_NEAR(answer["tR"], 16.915, 0.004); // it moves a little during the dwell time
    EXPECT_NEAR(answer["fraction"], 0.699, 0.001);
}

TEST_F(ResolveTest, ReadsSystemsOfTheLibraryThatDifferInTheFractionOnly) {
    std::string values = "compound,smiles,system,quantity,value,run\n";
    const std::vector<std::tuple<std::string, std::string, double, double>> lines{
        {"phenol", "Oc1ccccc1", 1.3, 2.2},
        {"anisole", "COc1ccccc1", 2.0, 2.9},
        {"hydroquinone", "Oc1ccc(O)cc1", 2.9, 3.0},  // a wrong label
        {"butylbenzene", "CCCCc1ccccc1", 2.4, 2.6}}; // rightly late
    const std::vector<std::pair<std::string, double>> systems{
        {"a30", 0.3}, {"a40", 0.4}, {"a50", 0.5}, {"m50", 0.5}};
    for (const auto &[name, smiles, log_k, slope] : lines) {
        for (const auto &[system, fraction] : systems) {
            for (const double off : {-0.01, 0.01}) {
                values += name + "," + smiles + "," + system + ",k," +
                          std::to_string(std::pow(10.0, log_k - slope * fraction + off)) + "," +
                          system + std::to_string(off) + "\n";
            }
        }
        values += name + "," + smiles + ",a45,RI,900,x\n"; // an index is no retention factor
    }
    const Outcome learned = cospot(
        {"learn", "--systems",
         file("systems.csv", "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                             "a30,hplc,C18,water:acetonitrile 70:30,,\n"
                             "a40,hplc,C18,acetonitrile:water 2:3,,isocratic\n"
                             "a50,hplc,C18,Water:Acetonitrile 1:1,,\n"
                             "a45,hplc,C18,water:acetonitrile 55:45,alkyl aryl ketone,\n"
                             "b30,hplc,C8,water:acetonitrile 80:20,,\n"
                             "grad,hplc,C18,water:acetonitrile 80:20,,gradient to 90 % in 20 min\n"
                             "m50,hplc,C18,water:methanol 1:1,,\n"),
         file("values.csv", values)});
    ASSERT_EQ(learned.code, kDone) << learned.err;
    const Json answer = cospot({"--json", "resolve", "--system", "a40"}).lines().at(0);
    EXPECT_EQ(answer["systems"], Json({"a30", "a40", "a50"}));
    EXPECT_EQ(answer["modifier"], "acetonitrile");
    EXPECT_EQ(answer["compounds"][0]["points"].size(), 6U);
    EXPECT_NEAR(answer["compounds"][0]["S"], 2.2, 1e-3);
    EXPECT_NEAR(answer["compounds"][0]["log_k_w"], 1.3, 1e-3);
    EXPECT_NEAR(answer["scatter_log_k"], 0.01 * std::sqrt(6.0 / 4.0), 1e-4);
    ASSERT_EQ(answer["warnings"].size(), 1U) << answer["warnings"];
    EXPECT_HOLDS(answer["warnings"][0].get<std::string>(), "hydroquinone (log P 1.1) leaves after");
    // The same library knows the compounds of a table by name.
    const Json table = resolve("compound,fraction,k\nhydroquinone,0.3,9\nhydroquinone,0.5,4\n"
                               "butylbenzene,0.3,6\nbutylbenzene,0.5,2\n")
                           .lines()
                           .at(0);
    EXPECT_EQ(table["warnings"].size(), 1U);
    const Json two = cospot({"--json", "resolve", "--system", "a30", "--compounds", "anisole",
                             "--compounds", "phenol"})
                         .lines()
                         .at(0);
    EXPECT_EQ(two["best"]["critical_pair"], Json({"phenol", "anisole"}));
    EXPECT_HOLDS(cospot({"resolve", "--system", "m50"}).err, "no compound whose k");
    EXPECT_HOLDS(cospot({"resolve", "--system", "a30", "--compounds", "nobody"}).err, "nobody");
    EXPECT_HOLDS(cospot({"resolve", "--system", "a30", "--modifier", "tea"}).err, "--modifier");
    EXPECT_HOLDS(cospot({"resolve", "--system", "grad"}).err, "an isocratic hplc system");
    EXPECT_HOLDS(cospot({"resolve", "--system", "none"}).err, "a system that the library holds");
}

TEST_F(ResolveTest, WritesAPictureIntoANewFileOnly) {
    const std::string picture = (folder_ / "map.svg").string();
    const std::string odd = "compound,fraction,k\n<a & b>,0.3,3\n<a & b>,0.5,1\nc,0.3,6\nc,0.5,2\n";
    ASSERT_EQ(resolve(odd, {"--picture", picture}).code, kDone);
    std::ifstream in(picture);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    EXPECT_TRUE(text.starts_with("<svg ")) << text.substr(0, 80);
    EXPECT_HOLDS(text, "&lt;a &amp; b&gt; / c");
    EXPECT_EQ(text.find("<a &"), std::string::npos);
    EXPECT_HOLDS(fault(odd, {"--picture", picture}), "never overwritten");
    EXPECT_HOLDS(fault(odd, {"--picture", (folder_ / "no" / "map.svg").string()}), "no folder");
}

TEST_F(ResolveTest, BadRowsAreNamed) {
    EXPECT_HOLDS(fault("compound,fraction,k\na,1.3,3\na,0.5,1\n"), "r.csv:2, column fraction");
    EXPECT_HOLDS(fault("compound,percent,k\na,30,3\na,101,1\n"), "r.csv:3, column percent");
    EXPECT_HOLDS(fault("compound,fraction,k\na,0.3,0\na,0.5,1\n"), "r.csv:2, column k");
    EXPECT_HOLDS(fault("compound,fraction,k\na,0.3,-1\na,0.5,1\n"), "r.csv:2, column k");
    EXPECT_HOLDS(fault("compound,fraction,k\na,0.3,nan\na,0.5,1\n"), "r.csv:2, column k");
    EXPECT_HOLDS(fault("compound,fraction,k\na,0.3,3\na,0.5,1\nb,0.3,2\n"),
                 "r.csv:4, column fraction: found one fraction only");
    EXPECT_HOLDS(fault("compound,fraction,k\na,0.3,3\na,0.3000001,1\n"), "one fraction only");
    EXPECT_HOLDS(fault("compound,fraction,k\na,0.3,9e4\na,0.31,1e-3\n", {"--extrapolate"}),
                 "lies too far from those measured");
    EXPECT_HOLDS(fault("compound,fraction,k\na,0.3,3\nA,0.3,4\na,0.5,1\n"),
                 "r.csv:3, column k: found another value");
    EXPECT_HOLDS(fault("compound,fraction,tR\na,0.3,3\na,0.5,1.2\n", {"--hold-up", "1.5"}),
                 "r.csv:3, column tR: found 1.2 min");
    EXPECT_HOLDS(fault("compound,fraction,tR\na,0.3,3\na,0.5,2\n"), "--hold-up");
    EXPECT_HOLDS(fault("compound,fraction,k,tR\na,0.3,3,4\n"), "both k and tR");
    EXPECT_HOLDS(fault("compound,k\na,3\n"), "neither fraction and percent");
    EXPECT_HOLDS(fault("compound,fraction,k\n"), "a header without rows");
    EXPECT_HOLDS(fault(""), "an empty file");
    EXPECT_HOLDS(fault("compound,fraction,tR,width_half\na,0.3,3,0\n", {"--hold-up", "1"}),
                 "column width_half");
}

TEST_F(ResolveTest, BadOptionsAreNamed) {
    EXPECT_HOLDS(fault(kReadings, {"--k-from", "10", "--k-to", "1"}), "--k-from");
    EXPECT_HOLDS(fault(kReadings, {"--wanted-k", "3"}), "one without the other");
    EXPECT_HOLDS(fault(kReadings, {"--gradient", "5,95,20", "--hold-up", "1"}), "--gradient");
    EXPECT_HOLDS(fault(kReadings, {"--gradient", "0.1,0.9", "--hold-up", "1"}), "--gradient");
    EXPECT_HOLDS(fault(kReadings, {"--gradient", "0.1,0.9,20"}), "--hold-up");
    EXPECT_HOLDS(fault(kReadings, {"--dwell", "1"}), "--dwell");
    EXPECT_HOLDS(fault(kReadings, {"--phase", "sideways"}), "reversed or normal");
    EXPECT_HOLDS(fault(kReadings, {"--system", "x"}), "FILE and --system");
    EXPECT_HOLDS(fault(kReadings, {"--compounds", "nobody"}), "--compounds");
    EXPECT_HOLDS(fault(kReadings, {"--plates", "-3"}), "--plates");
    EXPECT_HOLDS(fault(kReadings, {"--resolution", "1000"}), "at most 100");
    std::string many = "compound,fraction,k\n";
    for (int i = 0; i < 61; ++i) {
        const std::string name = "c" + std::to_string(i);
        many += name + ",0.3," + std::to_string(i + 2) + "\n" + name + ",0.5,1\n";
    }
    EXPECT_HOLDS(fault(many), "61 compounds");
    EXPECT_NE(resolve(many, {"--compounds", "c3", "--compounds", "C9"}).code, kBadInput);
}

TEST_F(ResolveTest, TheTextFitsTheScreenAndShowsNoControlCharacters) {
    std::string readings = "compound,fraction,k\n";
    for (const std::string name :
         {"4-hydroxy-3-methoxybenzaldehyde of uncommon length", "b\x1b[31m", "kampferöl"}) {
        readings += name + ",0.3," + std::to_string(2 + name.size()) + "\n" + name + ",0.5," +
                    std::to_string(0.5 + 0.1 * static_cast<double>(name.size())) + "\n";
    }
    const Outcome outcome =
        cospot({"resolve", file("r.csv", readings), "--hold-up", "1.5", "--gradient",
                "0.05,0.95,20", "--wanted-k", "3", "--compound", "kampferöl"});
    EXPECT_NE(outcome.code, kBadInput) << outcome.err;
    EXPECT_EQ(outcome.out.find('\x1b'), std::string::npos);
    EXPECT_HOLDS(outcome.out, "Retention alone is no proof");
    EXPECT_HOLDS(outcome.out, "Caution");
    expect_fits_screen(outcome.out);
    EXPECT_EQ(outcome.out.find(" \n"), std::string::npos);
}

} // namespace
} // namespace cospot
