// Verbs take a recorded trace where they take a chromatogram. All values are invented; traces are
// made by a model of peaks (trace_text.h).
#include "program_fixture.h"
#include "trace_text.h"

namespace cospot {
namespace {

class Traces : public ProgramTest {
protected:
    Traces() {
        const Outcome learned = cospot(
            {"learn", "--systems",
             file("s.csv", "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                           "ramp,gc,dimethylsilicone,helium,n-alkane,\"50 C, 5 C/min to 250 C\"\n"),
             file("v.csv", "compound,smiles,system,quantity,value,run\n"
                           "limonene,CC1=CCC(CC1)C(C)=C,ramp,RI,1030,r1\n"
                           "linalool,CC(C)=CCCC(C)(O)C=C,ramp,RI,1100,r1\n"
                           "menthol,CC(C)C1CCC(C)CC1O,ramp,RI,1173,r1\n"
                           "carvone,CC1=CCC(CC1=O)C(C)=C,ramp,RI,1243,r1\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
        std::vector<MadePeak> homologues;
        for (int carbon = 9; carbon <= 14; ++carbon) {
            homologues.push_back({time_of(100.0 * carbon), 6000});
        }
        ladder_ = file("ladder.txt", trace_text(homologues, 14.0, 0.005, 2));
        run_ =
            file("run.txt",
                 trace_text({{time_of(1030), 9000}, {time_of(1173), 3000}, {time_of(1243), 6000}},
                            14.0));
    }

    /// Of an index, under a programme: 1.8 min a carbon.
    static double time_of(double index) { return 2.0 + 1.8 * (index - 900.0) / 100.0; }

    [[nodiscard]] Outcome with_ladder(std::vector<std::string> arguments) const {
        arguments.insert(arguments.end(),
                         {"--system", "ramp", "--ladder", ladder_, "--ladder-first", "9"});
        return cospot(arguments);
    }

    std::string ladder_;
    std::string run_;
};

TEST_F(Traces, GiveTheCandidatesThatTheirTableGives) {
    std::string table = "peak,tR,area\n";
    int number = 0;
    for (const double index : {1030.0, 1173.0, 1243.0}) {
        table += fmt::format("{},{:.4f},1000\n", ++number, time_of(index));
    }
    std::string homologues = "carbon,tR\n";
    for (int carbon = 9; carbon <= 14; ++carbon) {
        homologues += fmt::format("{},{:.4f}\n", carbon, time_of(100.0 * carbon));
    }
    const auto by_table = cospot({"--json", "identify", file("t.csv", table), "--system", "ramp",
                                  "--ladder", file("l.csv", homologues)})
                              .lines();
    const Outcome outcome = with_ladder({"--json", "identify", run_});
    const auto by_trace = outcome.lines();
    ASSERT_EQ(by_trace.size(), by_table.size()) << outcome.err;
    for (std::size_t i = 0; i < by_trace.size(); ++i) {
        EXPECT_EQ(by_trace[i]["candidates"][0]["compound"],
                  by_table[i]["candidates"][0]["compound"]);
        EXPECT_NEAR(by_trace[i]["observations"][0]["value"].get<double>(),
                    by_table[i]["observations"][0]["value"].get<double>(), 0.5);
    }
    EXPECT_NE(outcome.err.find("by even spacing: C9 at 2.00"), std::string::npos) << outcome.err;
}

TEST_F(Traces, AreShownWithTheirPeaksAndSettings) {
    const Outcome shown = cospot({"peaks", run_});
    EXPECT_EQ(shown.code, kDone) << shown.err;
    EXPECT_NE(shown.out.find("--peak-threshold 4.5 --overlaps drop"), std::string::npos)
        << shown.out;
    const auto lines = cospot({"--json", "peaks", run_}).lines();
    ASSERT_EQ(lines.size(), 4U); // three peaks and the trace
    EXPECT_NEAR(lines[0]["tR"].get<double>(), time_of(1030), 0.002);
    EXPECT_NEAR(lines[0]["area"].get<double>(), 9000, 180);
    EXPECT_EQ(lines[3]["points"], 2800);
    const std::string page = path("p.html");
    ASSERT_EQ(cospot({"peaks", run_, "--report", page}).code, kDone);
    EXPECT_NE(content("p.html").find("svg class=\"trace\""), std::string::npos);
}

TEST_F(Traces, TheirTableOfPeaksIsReadAgain) {
    const std::string table = path("peaks.csv");
    ASSERT_EQ(cospot({"peaks", run_, "--report", table}).code, kDone);
    const auto by_trace = with_ladder({"--json", "identify", run_}).lines();
    const auto by_table = with_ladder({"--json", "identify", table}).lines();
    ASSERT_EQ(by_table.size(), 3U);
    EXPECT_EQ(by_table[1]["observations"], by_trace[1]["observations"]);
}

TEST_F(Traces, AreJudgedForPurityAndDrawn) {
    const std::string page = path("q.html");
    const Outcome judged =
        with_ladder({"purity", run_, "--declared", "limonene", "--report", page});
    EXPECT_EQ(judged.code, kNeedsAttention) << judged.err;
    EXPECT_NE(judged.out.find("limonene"), std::string::npos);
    EXPECT_NE(content("q.html").find("The trace as it was recorded"), std::string::npos);
}

TEST_F(Traces, AreLearnedByTheNamesOfTheirPeaks) {
    const Outcome learned = with_ladder({"learn", run_, "--peak-name", "4.34=limonene",
                                         "--peak-name", "6.91=menthol", "--date", "2026-05-01"});
    EXPECT_EQ(learned.code, kDone) << learned.err;
    const Outcome shown = cospot({"show", "menthol"});
    EXPECT_NE(shown.out.find("2 values on 1 system, from 2 independent runs"), std::string::npos)
        << shown.out;
    const Outcome refused = with_ladder({"learn", run_, "--peak-name", "12.5=limonene"});
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_NE(refused.err.find("no peak at 12.5 min"), std::string::npos) << refused.err;
}

TEST_F(Traces, ChangesByHandNeedAReason) {
    EXPECT_EQ(cospot({"peaks", run_, "--drop-peak", "4.34"}).code, kBadInput);
    const Outcome told =
        cospot({"peaks", run_, "--drop-peak", "4.34", "--reason", "carry-over of the last run"});
    EXPECT_EQ(told.code, kDone) << told.err;
    EXPECT_NE(on_one_line(told.out).find("Reason: carry-over of the"), std::string::npos)
        << told.out;
}

TEST_F(Traces, OfABlankAreSubtractedPointByPoint) {
    const std::vector<MadePeak> bleed{{6.0, 20000}};
    const std::string blank = file("blank.txt", trace_text(bleed, 14.0, 0.005, 3));
    std::vector<MadePeak> both{{6.0, 20000}, {8.0, 5000}};
    const std::string sample = file("sample.txt", trace_text(both, 14.0, 0.005, 4));
    const auto lines = cospot({"--json", "peaks", sample, "--minus", blank}).lines();
    ASSERT_EQ(lines.size(), 2U);
    EXPECT_NEAR(lines[0]["tR"].get<double>(), 8.0, 0.002);
    const std::string other = file("other.txt", trace_text(bleed, 14.0, 0.004, 3));
    const Outcome refused = cospot({"peaks", sample, "--minus", other});
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_NE(refused.err.find("purity --blank"), std::string::npos) << refused.err;
}

TEST_F(Traces, WithoutPeaksAreRefusedWhereOneIsNeeded) {
    const std::string flat = file("flat.txt", trace_text({}, 14.0));
    EXPECT_EQ(with_ladder({"identify", flat}).code, kBadInput);
    EXPECT_EQ(cospot({"peaks", flat}).code, kNeedsAttention);
}

} // namespace
} // namespace cospot
