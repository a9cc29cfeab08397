// Traces in texts as spreadsheets and programs write them; all values invented.
#include "traces/text_trace.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>
#include <sstream>
#include <string>
#include <vector>

namespace cospot {
namespace {

/// A trace of one peak: `rows` rows every 0.05, numbers with `decimal` as their sign.
std::string rows_of(int rows, const std::string &divider, char decimal = '.', int first = 0) {
    std::string text;
    for (int i = first; i < first + rows; ++i) {
        char row[64];
        (void)std::snprintf(row, sizeof row, "%.2f|%.3f\n", 0.05 * i,
                            1.0 + 50.0 * std::exp(-0.02 * (i - 30) * (i - 30)));
        std::string line = row;
        for (char &c : line) {
            c = c == '.' ? decimal : c;
        }
        line.replace(line.find('|'), 1, divider);
        text += line;
    }
    return text;
}

std::string utf16(const std::string &text, bool is_little) {
    std::string bytes = is_little ? "\xFF\xFE" : "\xFE\xFF";
    for (const char c : text) {
        bytes += is_little ? std::string{c, '\0'} : std::string{'\0', c};
    }
    return bytes;
}

TraceFile text_file(const std::string &text, const std::string &time_unit = "") {
    std::istringstream in(text);
    return read_text_trace(in, "run.txt", {.time_unit = time_unit});
}

std::string text_refusal(const std::string &text, const std::string &time_unit = "") {
    try {
        (void)text_file(text, time_unit);
    } catch (const InputError &error) {
        return error.what();
    }
    return "no error";
}

TEST(TextTrace, IsTheSameWithAllDividersAndEncodings) {
    const std::vector<std::string> texts{
        "Time (min),Signal (mAU)\n" + rows_of(60, ","),
        "Time (min);Signal (mAU)\n" + rows_of(60, ";", ','),
        "Time [min]\tSignal [mAU]\r\n" + rows_of(60, "\t", ','),
        "Time (min)  Signal (mAU)\n" + rows_of(60, "   "),
        "Time (min) Signal (mAU)\n" + rows_of(60, " ", ','),
        "\"Time, min\",\"Signal (mAU)\"\n" + rows_of(60, ", "),
        "Time\tSignal\nmin\tmAU\n" + rows_of(60, "\t"),
        "t/min\tSignal / mAU\n" + rows_of(60, "\t"),
        "a report, invented\nno. 7, 3 signals\n\nTime (min),Signal (mAU)\n" + rows_of(60, ",") +
            "end of report\n",
        utf16("Time (min)\tSignal (mAU)\n" + rows_of(60, "\t"), true),
        utf16("Time (min)\tSignal (mAU)\n" + rows_of(60, "\t"), false),
        "\xEF\xBB\xBFTime (min),Signal (mAU),\n" + rows_of(60, ","),
    };
    for (const std::string &text : texts) {
        SCOPED_TRACE(text.substr(0, 40));
        EXPECT_TRUE(looks_like_text_trace(text));
        const TraceFile file = text_file(text);
        ASSERT_EQ(file.traces.size(), 1U);
        const Trace &trace = file.traces[0];
        EXPECT_EQ(trace.name, "Signal");
        EXPECT_EQ(trace.signal_unit, "mAU");
        ASSERT_EQ(trace.time_min.size(), 60U);
        EXPECT_DOUBLE_EQ(trace.time_min[30], 1.5);
        EXPECT_DOUBLE_EQ(trace.signal[30], 51.0);
    }
}

TEST(TextTrace, ReadsItsUnitAndGuessesNone) {
    EXPECT_NEAR(text_file("time_s,signal\n" + rows_of(60, ",")).traces[0].time_min[30], 0.025,
                1e-12);
    EXPECT_DOUBLE_EQ(text_file(rows_of(60, ","), "min").traces[0].time_min[30], 1.5);
    EXPECT_EQ(text_file(rows_of(60, ","), "min").traces[0].name, "signal");
    EXPECT_EQ(text_refusal(rows_of(60, ",")), "run.txt:1: found times without a unit; expected "
                                              "--time-unit s or --time-unit min");
    EXPECT_NE(text_refusal("Time (ms),U\n" + rows_of(60, ",")).find("in the unit \"ms\""),
              std::string::npos);
    EXPECT_NE(text_refusal("Time (s),U\n" + rows_of(60, ","), "min").find("found times in s;"),
              std::string::npos);
}

TEST(TextTrace, FindsTheTimesByTheirHeading) {
    std::string text = "Point\tTime (s)\tA\tB\n";
    for (int i = 1; i <= 60; ++i) {
        text += std::to_string(i) + "\t" + std::to_string(3 * i) + "\t" + std::to_string(i % 7) +
                "\t" + std::to_string(i % 5) + "\n";
    }
    const TraceFile file = text_file(text);
    ASSERT_EQ(file.traces.size(), 2U); // the number of the point is no signal
    EXPECT_EQ(file.traces[0].name, "A");
    EXPECT_EQ(file.traces[1].name, "B");
    EXPECT_DOUBLE_EQ(file.traces[0].time_min[59], 3.0);
    EXPECT_TRUE(looks_like_text_trace(text));
}

TEST(TextTrace, KnowsByItsUnitWhatHoldsNoPeaks) {
    std::string text = "Flow (mL/min)\tTime (min)\tUV (mAU)\tPressure (bar)\tOven (\xC2\xB0"
                       "C)\n";
    for (int i = 0; i < 60; ++i) {
        text += "0.5\t" + std::to_string(i) + "\t" + std::to_string(i % 7) + "\t200\t40\n";
    }
    const TraceFile file = text_file(text);
    ASSERT_EQ(file.traces.size(), 4U);
    for (const Trace &trace : file.traces) {
        EXPECT_EQ(trace.holds_peaks, trace.name == "UV") << trace.name;
        EXPECT_EQ(trace.time_min.back(), 59.0);
    }
}

TEST(TextTrace, IsNeverCutShortByAFaultyRow) {
    const std::string head = "Time (min),Signal\n";
    for (const std::string row : {"1.00,n/a", "1.00", "1.00,1,2", "1.00,,", "overload"}) {
        const std::string text = head + rows_of(20, ",") + row + "\n" + rows_of(40, ",", '.', 21);
        EXPECT_EQ(text_refusal(text).rfind("run.txt:22: found \"" + row + "\" inside a trace", 0),
                  0U)
            << text_refusal(text);
    }
    EXPECT_EQ(text_refusal(head + rows_of(20, ",") + "\n\n" + rows_of(40, ",", '.', 20)),
              "no error"); // blank lines divide nothing
}

TEST(TextTrace, TakesTheLongestOfSeveralThatBeginAnew) {
    const TraceFile file = text_file("Time (min),A\n" + rows_of(20, ",") + "Time (min),B\n" +
                                     rows_of(40, ",") + "Time (min),C\n" + rows_of(30, ","));
    EXPECT_EQ(file.traces[0].name, "B");
    EXPECT_EQ(file.notes,
              std::vector<std::string>{"the trace is read from lines 23 to 62; 50 rows of numbers "
                                       "elsewhere in the file left out"});
}

TEST(TextTrace, RefusesTimesThatDoNotRise) {
    std::string text = "Time (min),Signal\n" + rows_of(30, ",") + "1.45,7\n";
    EXPECT_EQ(text_refusal(text), "run.txt:32: found the time 1.45 after 1.45; expected times that "
                                  "rise from row to row");
}

TEST(TextTrace, RefusesTwoDecimalSigns) {
    const std::string text = "Time (min)\tSignal\n" + rows_of(30, "\t") + "2.0\t1,234\n";
    EXPECT_EQ(text_refusal(text).rfind("run.txt:32: found decimal points beside decimal commas", 0),
              0U);
}

TEST(TextTrace, PassesOverHeadingsInAnotherEncoding) {
    const std::string text = "Detector: \xB5V\nTime (min),Signal\n" + rows_of(60, ",");
    EXPECT_EQ(text_file(text).traces[0].signal.size(), 60U);
    EXPECT_EQ(
        text_refusal(std::string("\x01\xFF\x00 binary\n", 11)).rfind("run.txt:1, column 2:", 0),
        0U);
}

TEST(TextTrace, RefusesWhatHoldsNone) {
    for (const std::string text : {"", "a letter\n", "1,2\n3,4\n", "{\"peaks\": [1, 2]}\n"}) {
        EXPECT_NE(text_refusal(text, "min").find("at least 10 rows"), std::string::npos) << text;
        EXPECT_FALSE(looks_like_text_trace(text)) << text;
    }
}

TEST(TextTrace, IsNotSeenInTablesOfThePeaks) {
    // Retention times and areas of 80 peaks, as scattered as peaks are (a made-up recurrence).
    std::string bare;
    std::string numbered;
    double time = 1.0;
    unsigned state = 12345;
    for (int i = 1; i <= 80; ++i) {
        state = state * 1103515245U + 12345U;
        const double share = ((state >> 16U) % 1000U + 1.0) / 1000.0;
        time -= 0.3 * std::log(share);
        bare += std::to_string(time) + "," + std::to_string(100.0 * share) + "\n";
        numbered += std::to_string(i) + "," + std::to_string(time) + "," +
                    std::to_string(100.0 * share) + "\n";
    }
    EXPECT_FALSE(looks_like_text_trace("RT (min),Counts\n" + bare));
    EXPECT_FALSE(looks_like_text_trace(bare));
    EXPECT_FALSE(looks_like_text_trace("no.,RT (min),Counts\n" + numbered));
    EXPECT_FALSE(looks_like_text_trace(numbered));
    // Even steps, but the headings are the program's own.
    for (const char *head : {"tR,area\n", "tR_min,height\n", "peak,tR\n", "lane,distance_mm\n",
                             "Distance (cm),Front\n"}) {
        EXPECT_FALSE(looks_like_text_trace(head + rows_of(60, ","))) << head;
    }
    EXPECT_FALSE(looks_like_text_trace("Time (min),Signal\n" + rows_of(40, ","))); // short
    EXPECT_TRUE(looks_like_text_trace("Time (min),Signal\n" + rows_of(60, ",")));
}

} // namespace
} // namespace cospot
