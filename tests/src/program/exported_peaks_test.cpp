// Tables of peaks as data systems export them: headers, dates, sums and ladders of their own. The
// system and the runs are invented.
#include "program_fixture.h"

namespace cospot {
namespace {

using Texts = std::vector<std::string>;

class ExportedPeaks : public ProgramTest {
protected:
    ExportedPeaks() {
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("systems.csv",
                         "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                         "db,gc,6 % cyanopropylphenyl,helium,n-alkane,\"40 C, 10 C/min\"\n"),
                    file("values.csv", "compound,smiles,system,quantity,value\n"
                                       "ethyl acetate,CCOC(C)=O,db,RI,686.2\n"
                                       "toluene,Cc1ccccc1,db,RI,829.2\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    Outcome identify(const std::string &peaks, const std::string &ladder, const Texts &further = {},
                     bool json = true) const {
        Texts call{"identify", file("s.csv", peaks), "--system",
                   "db",       "--ladder",           file("l.csv", ladder)};
        if (json) {
            call.insert(call.begin(), "--json");
        }
        call.insert(call.end(), further.begin(), further.end());
        return cospot(call);
    }
};

const std::string kNumberedLadder = "carbon;tR\n5;3,121\n6;4,853\n7;7,310\n8;10,122\n9;12,950\n";
const std::string kNamedAlkanes =
    "Alkan;RT\nC5 Pentan;3,121\nHexan;4,853\nn-C7;7,310\n8;10,122\nC9 n-Nonan;12,950\n";

TEST_F(ExportedPeaks, TimesOfDayThousandsAndSumsAreReadAsTheyAreMeant) {
    const Outcome outcome = identify("run;date;peak;tR;area\nA;03.06.2024 08:12;1;6,970;1.112,400\n"
                                     "A;;2;10,948;< LOQ\nSumme;;;;1.112,400\n",
                                     kNumberedLadder);
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    const auto features = outcome.lines();
    ASSERT_EQ(features.size(), 2U);
    EXPECT_EQ(features[0]["candidates"][0]["compound"], "ethyl acetate");
    EXPECT_HOLDS(outcome.err, "1 row of sums left out (line 4)");
    EXPECT_HOLDS(unwrapped(outcome.err), "read as no amount");
}

TEST_F(ExportedPeaks, ALadderHasColumnsOfItsOwnWhichASheetRemembers) {
    const std::string peaks = "Peak;Ret. Time [min]\n1;6,970\n";
    const Texts maps{"--map",        "tR=Ret. Time [min]", "--ladder-map",
                     "carbon=Alkan", "--ladder-map",       "tR=RT"};
    Texts first = maps;
    first.insert(first.end(), {"--as", "export"});
    ASSERT_EQ(identify(peaks, kNamedAlkanes, first).code, kDone);
    const Outcome again = identify(peaks, kNamedAlkanes, {"--as", "export"});
    ASSERT_EQ(again.code, kDone) << again.err;
    EXPECT_NEAR(again.lines().at(0)["observations"][0]["value"], 686.2, 0.1);
}

TEST_F(ExportedPeaks, EachTableTakesTheHeaderThatItHas) {
    const std::string peaks = "Peak;Ret. Time [min]\n1;6,970\n";
    const Texts maps{"--map", "tR=Ret. Time [min]", "--map", "tR=RT", "--map", "carbon=Alkan"};
    const Outcome outcome = identify(peaks, kNamedAlkanes, maps);
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    Texts kept = maps;
    kept.insert(kept.end(), {"--as", "export"});
    EXPECT_EQ(identify(peaks, kNamedAlkanes, kept).code, kDone);
    EXPECT_EQ(identify(peaks, kNamedAlkanes, {"--as", "export"}).code, kDone); // both are kept
    EXPECT_EQ(identify(peaks, kNamedAlkanes, {"--map", "tR=RT", "--map", "tR=rt"}).code, kBadInput);
}

TEST_F(ExportedPeaks, WhatIsNoMemberOfALadderIsShownAsItStands) {
    const auto fault = [&](const std::string &member) {
        const Outcome outcome =
            identify("peak;tR\n1;6,970\n", "carbon;tR\n5;3,121\n" + member + ";4,853\n");
        EXPECT_EQ(outcome.code, kBadInput) << member;
        EXPECT_EQ(outcome.err.find("found nan"), std::string::npos) << outcome.err;
        EXPECT_HOLDS(outcome.err, "l.csv:3, column carbon: found \"" + member + "\"");
    };
    fault("Toluol");
    fault("C9 Octan");
    fault("4,5");
    fault("acetophenone, C8");
    EXPECT_HOLDS(
        identify("peak;tR\n1;6,970\n", "carbon;tR\nC5 Pentan;3,121\nAcetophenon;4,853\n").err,
        "never mixed");
}

TEST_F(ExportedPeaks, UsualHeadersAreProposed) {
    const std::string peaks = "Sample;Ret. Time [min];Area [pA*s]\nA;6,970;1\n";
    const std::string maps = "--map tR=\"Ret. Time [min]\" --map area=\"Area [pA*s]\" --map "
                             "run=\"Sample\"";
    EXPECT_HOLDS(unwrapped(identify(peaks, kNumberedLadder).err), maps);
    const Outcome learned = cospot({"learn", file("s.csv", peaks), "--system", "db"});
    EXPECT_EQ(learned.code, kBadInput);
    EXPECT_HOLDS(unwrapped(learned.err), "--map tR=\"Ret. Time [min]\"");
    const Outcome ladder = identify("peak;tR\n1;6,970\n", kNamedAlkanes);
    EXPECT_HOLDS(unwrapped(ladder.err), "--ladder-map carbon=\"Alkan\" --ladder-map tR=\"RT\"");
}

} // namespace
} // namespace cospot
