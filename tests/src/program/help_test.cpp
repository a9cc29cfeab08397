// --help of the program and of each verb.
#include "program_fixture.h"

#include "options/command.h"

namespace cospot {
namespace {

using HelpTest = ProgramTest;

TEST_F(HelpTest, ListsEveryVerbAndFitsTheScreen) {
    const Outcome outcome = cospot({"--help"});
    EXPECT_EQ(outcome.code, kDone);
    for (const Command &command : command_table()) {
        EXPECT_HOLDS(outcome.out, std::string("\n  ") + command.verb + ' ');
    }
    expect_fits_screen(outcome.out);
}

TEST_F(HelpTest, OfEachVerbSaysHowToUseItAndFitsTheScreen) {
    for (const Command &command : command_table()) {
        const Outcome outcome = cospot({command.verb, "--help"});
        EXPECT_EQ(outcome.code, kDone) << command.verb;
        EXPECT_TRUE(outcome.out.starts_with("Usage: cospot ")) << outcome.out;
        EXPECT_HOLDS(outcome.out, std::string("] ") + command.verb);
        EXPECT_HOLDS(outcome.out, "--help");
        expect_fits_screen(outcome.out);
    }
}

TEST_F(HelpTest, KeepsTheRowsOfATable) {
    const std::string help = cospot({"learn", "--help"}).out;
    EXPECT_HOLDS(help, "\n  a plate:          lane,label,spot,distance_mm,front_mm,role");
    EXPECT_HOLDS(help,
                 "\n                    standards are learned: by the role, or by --standards\n");
}

} // namespace
} // namespace cospot
