// What is said of options that cannot be.
#include "program_fixture.h"

namespace cospot {
namespace {

using OptionsTest = ProgramTest;

/// The message about one option of a verb that reads an empty standard input.
struct Call {
    const char *verb;
    const char *option;
    const char *value;
    const char *message;
};

TEST_F(OptionsTest, ANumberOutOfRangeIsNamedTheSameWayByEveryVerb) {
    file("peaks.csv", "peak,tR,area\n1,2,3\n");
    for (const Call &call :
         {Call{"identify", "hold-up", "0", "found 0; expected a number above 0, at most 1e+06"},
          Call{"resolve", "hold-up", "-1", "found -1; expected a number above 0, at most 1e+06"},
          Call{"resolve", "resolution", "101", "found 101; expected a number above 0, at most 100"},
          Call{"column", "bed-mm", "1e-4", "found 0.0001; expected a number from 0.001 to 10000"},
          Call{"distil", "solvent-until", "1e7",
               "found 10000000; expected a number above 0, at most 1e+06"}}) {
        std::vector<std::string> arguments{call.verb, path("peaks.csv"),
                                           std::string("--") + call.option, call.value};
        if (call.verb == std::string("distil")) {
            arguments.insert(arguments.end(),
                             {"--ladder", file("l.csv", "carbon,tR\n8,4\n9,5\n10,6\n")});
        }
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kBadInput) << call.verb;
        EXPECT_HOLDS(outcome.err,
                     std::string("command line, --") + call.option + ": " + call.message);
    }
}

TEST_F(OptionsTest, ADecimalCommaIsReadAndAThousandIsNoGuess) {
    const std::string plate = file("c.csv", "fraction,Rf\n1,0.36\n2,0.40\n");
    EXPECT_EQ(cospot({"pool", plate, "--tolerance", "0,02"}).out,
              cospot({"pool", plate, "--tolerance", "0.02"}).out);
    EXPECT_EQ(cospot({"pool", plate, "--target", "0,36"}).code,
              cospot({"pool", plate, "--target", "0.36"}).code);
    const Outcome refused = cospot({"pool", plate, "--loaded-mg", "1,000"});
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_NE(refused.err.find("--loaded-mg \"1,000\""), std::string::npos) << refused.err;
}

TEST_F(OptionsTest, ATableOrListWithoutRowsIsNamed) {
    const Outcome learned =
        cospot({"learn", "--systems",
                file("systems.csv", "system,technique,stationary_phase,mobile_phase\n"
                                    "plate,tlc,silica gel,toluene\n"),
                file("values.csv", "compound,smiles,system,quantity,value\n"
                                   "anisole,COc1ccccc1,plate,Rf,0.7\n"
                                   "thymol,Cc1ccc(C(C)C)c(O)c1,plate,Rf,0.4\n")});
    ASSERT_EQ(learned.code, kDone) << learned.err;
    const std::string spots =
        file("u.csv", "sample,feature,system,quantity,value\nf,A,plate,Rf,0.5\n");
    const auto fault = [&](const std::vector<std::string> &arguments) {
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        return outcome.err;
    };
    EXPECT_HOLDS(fault({"identify", spots, "--prior", file("p.csv", "compound,weight\n")}),
                 "p.csv:1: found a header without rows; expected one row a compound");
    EXPECT_HOLDS(fault({"advise", spots, "--effort", file("e.csv", "measurement,effort\n")}),
                 "e.csv:1: found a header without rows; expected one row a measurement");
    EXPECT_HOLDS(fault({"purity", spots, "--declared", "thymol", "--expected",
                        file("n.txt", "compound\n\n")}),
                 "n.txt: found no name; expected one name a line");
}

} // namespace
} // namespace cospot
