// Numbers that no instrument gives are refused where they stand: sums of them would be infinite.
#include "program_fixture.h"

#include <utility>

namespace cospot {
namespace {

class InstrumentNumbers : public ProgramTest {
protected:
    InstrumentNumbers() {
        cospot({"learn", "--systems",
                file("s.csv", "system,technique,stationary_phase,scale\n"
                              "gc,gc,dimethylsilicone,n-alkane\ntlc,tlc,silica gel,\n"),
                file("v.csv", "compound,smiles,system,quantity,value\n"
                              "hexanol,CCCCCCO,gc,RI,850\nhexanol,CCCCCCO,tlc,Rf,0.4\n"
                              "heptanol,CCCCCCCO,gc,RI,950\n")});
    }

    void expect_refused(const std::vector<std::string> &arguments,
                        const std::string &column) const {
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kBadInput) << column << ' ' << outcome.out;
        EXPECT_EQ(outcome.out, "") << column;
        EXPECT_HOLDS(outcome.err, "u.csv");
        EXPECT_HOLDS(outcome.err, column);
        const std::string message = unwrapped(outcome.err);
        EXPECT_NE(message.find("at most"), std::string::npos) << message;
    }
};

TEST_F(InstrumentNumbers, ImpossibleNumbersInAChromatogramAreRefused) {
    const std::string ladder = file("l.csv", "carbon,tR\n8,2\n9,3\n10,4\n");
    for (const auto &[column, value] :
         std::vector<std::pair<std::string, std::string>>{{"area", "1e308"},
                                                          {"height", "2e13"},
                                                          {"width_half", "1e308"},
                                                          {"symmetry", "1e300"},
                                                          {"start", "-1e200"}}) {
        const std::string table =
            file("u.csv", "peak,tR," + column + "\n1,2.5,1\n2,2.7," + value + "\n");
        expect_refused({"identify", table, "--system", "gc", "--ladder", ladder}, column);
    }
    expect_refused({"purity", file("u.csv", "peak,tR,area\n1,2.5,1e308\n2,2.7,1e308\n"), "--system",
                    "gc", "--ladder", ladder, "--declared", "hexanol"},
                   "area");
}

TEST_F(InstrumentNumbers, ImpossibleNumbersInOtherTablesAreRefused) {
    expect_refused({"identify", file("u.csv", "sample,feature,system,quantity,value,area\n"
                                              "a,1,gc,RI,850,1e308\n")},
                   "area");
    expect_refused({"identify",
                    file("u.csv", "lane,label,spot,distance_mm,front_mm,area\n1,a,1,20,60,1e308\n"),
                    "--system", "tlc"},
                   "area");
    expect_refused({"identify", file("x.csv", "peak,tR\n1,2.5\n"), "--system", "gc", "--ladder",
                    file("u.csv", "carbon,tR\n8,2\n9,3\n10,1e300\n")},
                   "tR");
    expect_refused({"learn", file("u.csv", "compound,smiles,system,quantity,value,uncertainty\n"
                                           "octanol,CCCCCCCCO,gc,RI,1050,1e308\n")},
                   "uncertainty");
    expect_refused({"resolve",
                    file("u.csv", "compound,fraction,tR,width_half\na,0.3,5,1e308\n"
                                  "a,0.5,4,0.1\n"),
                    "--hold-up", "1"},
                   "width_half");
}

TEST_F(InstrumentNumbers, AnEffortNextToNothingIsRefused) {
    const std::string table =
        file("u.csv", "sample,feature,system,quantity,value\na,1,gc,RI,900\n");
    const Outcome outcome =
        cospot({"advise", table, "--effort", file("e.csv", "measurement,effort\ntlc,1e-320\n")});
    EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
    EXPECT_HOLDS(unwrapped(outcome.err), "an effort from 0.001 to 1000");
    EXPECT_HOLDS(outcome.err, "e.csv");
}

} // namespace
} // namespace cospot
