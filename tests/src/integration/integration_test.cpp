#include "integration/integration.h"

#include "program/trace_text.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <sstream>

namespace cospot {
namespace {

Integration integrated(const std::string &text, const IntegrationSettings &settings = {}) {
    std::istringstream in(text);
    EXPECT_TRUE(holds_trace(in));
    return integrate(in, "run.txt", settings);
}

const std::vector<MadePeak> kPeaks{{2.0, 6000}, {3.0, 1200}, {4.5, 12000}};

TEST(Integration, MakesAPeakTableOfATrace) {
    const Integration result = integrated(trace_text(kPeaks, 6.0));
    const auto peaks = peaks_of(result, {});
    ASSERT_EQ(peaks.size(), kPeaks.size());
    for (std::size_t i = 0; i < peaks.size(); ++i) {
        EXPECT_NEAR(peaks[i].retention_time_min, kPeaks[i].apex_min, 0.002) << i;
        EXPECT_NEAR(*peaks[i].area, kPeaks[i].area, 0.02 * kPeaks[i].area) << i;
        EXPECT_GT(peaks[i].uncertainty_min.value(), 0.0);
        EXPECT_LT(peaks[i].start_min.value(), kPeaks[i].apex_min);
        EXPECT_GT(peaks[i].end_min.value(), kPeaks[i].apex_min);
    }
    EXPECT_EQ(result.format, "text");
    EXPECT_EQ(result.recorded->baseline.size(), result.recorded->signal.size());
}

TEST(Integration, ATableIsNoTrace) {
    std::istringstream table("peak,tR,area\n1,2.0,100\n2,3.0,40\n");
    EXPECT_FALSE(holds_trace(table));
    std::string first;
    std::getline(table, first);
    EXPECT_EQ(first, "peak,tR,area") << "the stream is left at its beginning";
}

TEST(Integration, ChangesByHandAreMadeInOrderAndTold) {
    IntegrationSettings settings;
    settings.edits = {{PeakEdit::Kind::drop, 3.0, 0.0}, {PeakEdit::Kind::split, 4.52, 0.0}};
    settings.reason = "a bubble";
    settings.who = "analyst";
    const Integration result = integrated(trace_text(kPeaks, 6.0), settings);
    ASSERT_EQ(result.found.peaks.size(), 3U); // two, and one of them as two
    EXPECT_TRUE(result.found.peaks[1].shares_end);
    const auto is_told = [](const std::string &note) {
        return note == "! changed by hand by analyst: peak at 3 min dropped; peak split at 4.52 "
                       "min. Reason: "
                       "a bubble";
    };
    EXPECT_EQ(std::count_if(result.notes.begin(), result.notes.end(), is_told), 1);
}

TEST(Integration, AChangeThatHitsNoPeakSaysWhichThereAre) {
    IntegrationSettings settings;
    settings.edits = {{PeakEdit::Kind::drop, 5.5, 0.0}};
    try {
        (void)integrated(trace_text(kPeaks, 6.0), settings);
        FAIL() << "nothing was thrown";
    } catch (const InputError &fault) {
        EXPECT_EQ(fault.where().file, "run.txt");
        EXPECT_NE(std::string(fault.what()).find("which are at: 2.000"), std::string::npos)
            << fault.what();
    }
}

TEST(Integration, StoredPeaksNeedATable) {
    IntegrationSettings settings;
    settings.uses_stored_peaks = true;
    const Integration result = integrated(trace_text(kPeaks, 6.0));
    EXPECT_THROW((void)peaks_of(result, settings), InputError);
}

TEST(Integration, OfNoiseAloneHasNoPeaks) {
    EXPECT_TRUE(integrated(trace_text({}, 6.0)).found.peaks.empty());
}

} // namespace
} // namespace cospot
