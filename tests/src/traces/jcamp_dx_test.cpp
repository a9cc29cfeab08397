// JCAMP-DX: one set of data in all its encodings, and the checks that the format is made for.
#include "traces/jcamp_dx.h"

#include "shared/error.h"
#include "traces/jcamp_ordinates.h"
#include "traces/trace_file.h"

#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <vector>

namespace cospot {
namespace {

const std::string kHead = "##TITLE= invented\n##JCAMP-DX= 4.24 $$ a comment\n"
                          "##DATA TYPE= CHROMATOGRAM\n##X UNITS= Seconds\n##YUNITS= MAU\n"
                          "##XFACTOR= 0.5\n##YFACTOR= 0.1\n";
// 10 points every 3 s from 0 to 27 s.
const std::string kRange = "##FIRSTX= 0\n##LASTX= 27\n##NPOINTS= 10\n";

std::string jcamp(const std::string &lines, const std::string &records = kRange) {
    return kHead + records + "##XYDATA= (X++(Y..Y))\n" + lines + "##END=\n";
}

TraceFile jcamp_file(const std::string &text, const TraceOptions &options = {}) {
    std::istringstream in(text);
    return read_jcamp_dx(in, "run.jdx", options);
}

std::string jcamp_refusal(const std::string &text, const TraceOptions &options = {}) {
    try {
        (void)jcamp_file(text, options);
    } catch (const InputError &error) {
        return error.what();
    }
    return "no error";
}

void expect_jcamp_refused(const std::string &text, const std::string &part) {
    const std::string refusal = jcamp_refusal(text);
    EXPECT_NE(refusal.find(part), std::string::npos) << refusal;
}

std::vector<double> ordinates_of(const std::string &line) {
    return read_ordinate_line(line, {"run.jdx", 1, ""}, 100).ordinates;
}

// jcamp1988, the table of the forms of one set of ordinates: 1 2 3 3 2 1 0 -1 -2 -3; from memory.
TEST(JcampOrdinates, AreTheSameInAllFormsOfTheStandardsExample) {
    const std::vector<double> expected{1, 2, 3, 3, 2, 1, 0, -1, -2, -3};
    EXPECT_EQ(ordinates_of("0  1 2 3 3 2 1 0 -1 -2 -3"), expected); // AFFN
    EXPECT_EQ(ordinates_of("0+1+2+3+3+2+1+0-1-2-3"), expected);     // PAC
    EXPECT_EQ(ordinates_of("0ABCCBA@abc"), expected);               // SQZ
    EXPECT_EQ(ordinates_of("0AJJ%jjjjjj"), expected);               // DIF
    EXPECT_EQ(ordinates_of("0AJJ%jX"), expected);                   // DIF with DUP
    EXPECT_EQ(ordinates_of("0 1JJ%jX"), expected); // the first ordinate as a plain number
}

// The pseudo-digits one by one, by hand from the definition in jcamp1988, from memory.
TEST(JcampOrdinates, KnowEachPseudoDigit) {
    EXPECT_EQ(ordinates_of("0@ABCDEFGHI"), (std::vector<double>{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}));
    EXPECT_EQ(ordinates_of("0abcdefghi"),
              (std::vector<double>{-1, -2, -3, -4, -5, -6, -7, -8, -9}));
    EXPECT_EQ(ordinates_of("0@%JKLMNOPQR"),
              (std::vector<double>{0, 0, 1, 3, 6, 10, 15, 21, 28, 36, 45}));
    EXPECT_EQ(ordinates_of("0@jklmnopqr"),
              (std::vector<double>{0, -1, -3, -6, -10, -15, -21, -28, -36, -45}));
    for (const auto &[letter, count] : {std::pair('S', 1),
                                        {'T', 2},
                                        {'U', 3},
                                        {'V', 4},
                                        {'W', 5},
                                        {'X', 6},
                                        {'Y', 7},
                                        {'Z', 8},
                                        {'s', 9}}) {
        EXPECT_EQ(ordinates_of(std::string("0A") + letter).size(), static_cast<std::size_t>(count))
            << letter;
    }
    EXPECT_EQ(ordinates_of("0A23b4"), (std::vector<double>{123, -24}));
    EXPECT_EQ(ordinates_of("0A00J00S2"), (std::vector<double>{100, 200, 300, 400, 500, 600, 700,
                                                              800, 900, 1000, 1100, 1200, 1300}));
}

TEST(JcampOrdinates, ReadExponentsOnlyAmongFreeNumbers) {
    EXPECT_EQ(ordinates_of("0 1.5E+2 -2.5E-1, 3"), (std::vector<double>{150, -0.25, 3}));
    EXPECT_EQ(ordinates_of("0A5E2"), (std::vector<double>{15, 52})); // E is the digit 5 here
    EXPECT_DOUBLE_EQ(read_ordinate_line("1.50 1", {"", 1, ""}, 9).x_digit, 0.01);
}

TEST(JcampOrdinates, NameWhatCannotBeRead) {
    const auto refusal = [](const std::string &line) -> std::string {
        try {
            (void)ordinates_of(line);
        } catch (const InputError &error) {
            return error.what();
        }
        return "no error";
    };
    EXPECT_EQ(refusal("0 1 2 * 3").rfind("run.jdx:1, column 7: found \"* 3\"", 0), 0U);
    EXPECT_NE(refusal("0 1 ? 3").find("an ordinate that was measured"), std::string::npos);
    EXPECT_NE(refusal("0").find("found a line without ordinates"), std::string::npos);
    EXPECT_NE(refusal("0J1").find("as the first ordinate of a line"), std::string::npos);
    EXPECT_NE(refusal("0S1").find("as the first ordinate of a line"), std::string::npos);
    EXPECT_NE(refusal("0AS999999999").find("repeats"), std::string::npos);
    EXPECT_NE(refusal("0AZ9Z9").find("more ordinates"), std::string::npos) << refusal("0AZ9Z9");
}

TEST(JcampDx, ReadsOneSetOfDataInFourEncodings) {
    // The abscissa counts half seconds (XFACTOR 0.5): 6 a point.
    const std::vector<std::string> encodings{
        "0 1 2 3 3 2 1\n36 0 -1 -2 -3\n", // AFFN
        "0+1+2+3+3+2+1\n36+0-1-2-3\n",    // PAC
        "0ABCCBA\n36@abc\n",              // SQZ
        "0AJJ%jj\n30Ajjjj\n54c\n"};       // DIF: the last ordinate again at each start of a line
    for (const std::string &lines : encodings) {
        const TraceFile file = jcamp_file(jcamp(lines));
        ASSERT_EQ(file.traces.size(), 1U) << lines;
        const Trace &trace = file.traces[0];
        ASSERT_EQ(trace.signal.size(), 10U) << lines;
        for (std::size_t i = 0; i < 10; ++i) {
            const std::vector<double> raw{1, 2, 3, 3, 2, 1, 0, -1, -2, -3};
            EXPECT_DOUBLE_EQ(trace.signal[i], 0.1 * raw[i]) << lines;
            EXPECT_DOUBLE_EQ(trace.time_min[i], 3.0 * static_cast<double>(i) / 60.0) << lines;
        }
        EXPECT_EQ(trace.name, "invented");
        EXPECT_EQ(trace.kind, "chromatogram");
        EXPECT_EQ(trace.signal_unit, "MAU");
    }
}

TEST(JcampDx, ChecksTheOrdinateBehindDifferences) {
    expect_jcamp_refused(jcamp("0AJJ%jj\n30Djjjj\n"),
                         "run.jdx:13: found the ordinate 4 behind a line that ends at 1");
}

TEST(JcampDx, ChecksTheAbscissaOfEachLine) {
    expect_jcamp_refused(jcamp("0+1+2+3+3+2\n36+0-1-2-3\n"), // one point is lost
                         "run.jdx:13: found the abscissa 18; expected 15, the abscissa of point 6");
}

TEST(JcampDx, ChecksWhatTheHeaderSays) {
    expect_jcamp_refused(jcamp("0 1 2 3\n"), "found 3 points; expected 10 points as NPOINTS says");
    expect_jcamp_refused(jcamp("0 1 2 3 4 5 6 7 8 9 10 11\n"),
                         "found more ordinates than NPOINTS says");
    expect_jcamp_refused(jcamp("0AJJ%jX\n", kRange + "##FIRSTY= 3\n"),
                         "found the first ordinate 0.1; expected 3 as FIRSTY says");
    EXPECT_EQ(jcamp_refusal(jcamp("0AJJ%jX\n", kRange + "##FIRSTY= 0.1\n##DELTAX= 3\n")),
              "no error");
    expect_jcamp_refused(jcamp("0AJJ%jX\n", kRange + "##DELTAX= 4\n"),
                         "run.jdx:11, column DELTAX: found 4; expected 3 from FIRSTX");
    expect_jcamp_refused(
        jcamp("0AJJ%jX\n", "##FIRSTX= 0\n##NPOINTS= 10\n"),
        "column LASTX: found a table without it; expected ##LASTX= before the table");
    expect_jcamp_refused(jcamp("0AJJ%jX\n", "##FIRSTX= 0\n##LASTX= 27\n##NPOINTS= ten\n"),
                         "run.jdx:10, column NPOINTS: found \"ten\"");
    expect_jcamp_refused(jcamp("0AJJ%jX\n", "##FIRSTX= 0\n##LASTX= 27\n##NPOINTS= 6000000\n"),
                         "found a trace of 6000000 points");
    expect_jcamp_refused(jcamp("54AJJ%jX\n", "##FIRSTX= 27\n##LASTX= 0\n##NPOINTS= 10\n"),
                         "found 0.4 min at point 2 after 0.45 min"); // times fall
}

TEST(JcampDx, ReadsPairs) {
    const std::string head = "##TITLE= a\n##XUNITS= MINUTES\n##NPOINTS= 3\n";
    for (const char *form : {"##XYPOINTS= (XY..XY)\n", "##XYDATA= (XY..XY)\n"}) {
        const TraceFile file = jcamp_file(head + form + "1.0,2; 2.0,3E+1;\n3.5 4\n##END=\n");
        EXPECT_EQ(file.traces[0].time_min, (std::vector<double>{1, 2, 3.5}));
        EXPECT_EQ(file.traces[0].signal, (std::vector<double>{2, 30, 4}));
    }
    expect_jcamp_refused(head + "##XYDATA= (XY..XY)\n1 2 3 4 5\n##END=\n",
                         "found an abscissa without its ordinate");
    expect_jcamp_refused(head + "##XYDATA= (XYM)\n1 2 3\n##END=\n",
                         "found a table of the form \"(XYM)\"");
}

TEST(JcampDx, ReadsEachBlockOfALink) {
    const std::string block = jcamp("0AJJ%jX\n");
    const TraceFile file = jcamp_file("$$ first a comment\n##TITLE= both\n##DATA TYPE= LINK\n"
                                      "##BLOCKS= 2\n" +
                                      block + block + "##END=\n");
    EXPECT_EQ(file.traces.size(), 2U);
}

TEST(JcampDx, TakesNoSpectrumForAChromatogram) {
    std::string infrared = jcamp("0AJJ%jX\n");
    infrared.replace(infrared.find("Seconds"), 7, "1/CM");
    expect_jcamp_refused(infrared,
                         "run.jdx:4, column XUNITS: found \"1/CM\"; expected seconds or minutes");
    expect_jcamp_refused("##TITLE= a\n##NTUPLES= MASS SPECTRUM\n##END=\n", "found ##NTUPLES=");
    expect_jcamp_refused("##TITLE= a\n##XUNITS= SECONDS\n##END=\n",
                         "found no table of a chromatogram");
    expect_jcamp_refused(kHead + kRange + "##XYDATA= (X++(Y..Y))\n0AJJ%jX\n",
                         "found the end of the file inside a block");
}

TEST(JcampDx, NamesAPlaceEvenInAnEmptyFile) {
    EXPECT_EQ(jcamp_refusal(""), "run.jdx:1: found no table of a chromatogram; expected ##XYDATA= "
                                 "over seconds or minutes");
}

TEST(JcampDx, GuessesNoUnitOfTime) {
    std::string text = jcamp("0AJJ%jX\n");
    text.erase(text.find("##X UNITS"), std::string("##X UNITS= Seconds\n").size());
    expect_jcamp_refused(text, "found times without a unit");
    EXPECT_DOUBLE_EQ(jcamp_file(text, {.time_unit = "min"}).traces[0].time_min[9], 27.0);
}

TEST(JcampDx, ReadsTextsInAnotherEncodingThanUtf8) {
    std::string text = jcamp("0AJJ%jX\n");
    text.insert(text.find("##YUNITS"), "##OWNER= M\xFCller & Co. (invented)\n");
    EXPECT_EQ(jcamp_file(text).traces.size(), 1U);
}

} // namespace
} // namespace cospot
