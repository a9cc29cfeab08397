// Files of structures, read as `learn --partial` reads them: on behind a faulty record.
#include "readers/sdf_file.h"
#include "readers/smiles_list.h"

#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <vector>

namespace cospot {
namespace {

const std::string kBlock = "\n  made by hand\n\n  1  0  0  0  0  0            999 V2000\n"
                           "    0.0000    0.0000    0.0000 C   0  0\nM  END\n";

/// What came of each record: its compound, or the fault.
template <typename Source> std::vector<std::string> outcomes_of(Source source) {
    std::vector<std::string> outcomes;
    for (bool more = true; more;) {
        try {
            CompoundRow row;
            more = source.next(row);
            if (more) {
                outcomes.push_back(row.compound);
            }
        } catch (const InputError &error) {
            outcomes.push_back(error.what());
        }
    }
    return outcomes;
}

std::vector<std::string> records(const std::string &text, const std::string &name_field = "") {
    std::istringstream in(text);
    return outcomes_of(SdfFile(in, "file.sdf", name_field));
}

std::vector<std::string> list(const std::string &text) {
    std::istringstream in(text);
    return outcomes_of(SmilesList(in, "file.smi"));
}

TEST(SdfFile, AFaultyRecordDoesNotTakeTheNextOneAlong) {
    const auto outcomes =
        records("one" + kBlock + ">  <cas>\n64-17-6\n\n>  <note>\nx\n\n$$$$\n" + "two" + kBlock +
                "$$$$\n" + "thr\xFF" + kBlock + "$$$$\n" + "no end\n\n\n$$$$\nfour" + kBlock);
    ASSERT_EQ(outcomes.size(), 5U);
    EXPECT_EQ(outcomes[0].rfind("file.sdf:8, column cas: found \"64-17-6\"", 0), 0U) << outcomes[0];
    EXPECT_EQ(outcomes[1], "two");
    EXPECT_EQ(outcomes[2].rfind("file.sdf:21, column 4: found byte 0xFF", 0), 0U) << outcomes[2];
    EXPECT_NE(outcomes[3].find("a line \"M  END\""), std::string::npos);
    EXPECT_EQ(outcomes[4], "four");
}

TEST(SdfFile, TakesTheNameFromAField) {
    EXPECT_EQ(records("title" + kBlock + ">  <Name>\nspirit\n\n$$$$\n", "NAME"),
              std::vector<std::string>{"spirit"});
    EXPECT_EQ(records("> <NAME>" + kBlock + "$$$$\n"), std::vector<std::string>{"> <NAME>"});
}

TEST(SdfFile, HoldsNoEndlessRecord) {
    std::string long_record = "one" + kBlock;
    for (int line = 0; line < 11; ++line) {
        long_record += std::string(1U << 20U, 'x') + '\n';
    }
    const auto outcomes = records(long_record + "$$$$\ntwo" + kBlock);
    ASSERT_EQ(outcomes.size(), 2U);
    EXPECT_NE(outcomes[0].find("a record of more than 10 MiB"), std::string::npos);
    EXPECT_EQ(outcomes[1], "two");
    EXPECT_NE(records(std::string(3U << 20U, 'x')).at(0).find("a line of more than 1 MiB"),
              std::string::npos);
}

TEST(SdfFile, ReadsNoFurtherThanAFault) { // an endless file must not keep the program busy
    std::istringstream in(std::string(64U << 20U, 'x'));
    SdfFile file(in, "file.sdf", "");
    CompoundRow row;
    EXPECT_THROW((void)file.next(row), InputError);
    EXPECT_LT(in.tellg(), 2U << 20U);
}

TEST(SmilesList, GoesOnBehindAFaultyLine) {
    const auto outcomes = list("\xEF\xBB\xBF# invented\nC methane\nCC\nO\xFF water\nCO methanol\n");
    ASSERT_EQ(outcomes.size(), 4U);
    EXPECT_EQ(outcomes[0], "methane");
    EXPECT_EQ(outcomes[1].rfind("file.smi:3: found \"CC\"", 0), 0U) << outcomes[1];
    EXPECT_EQ(outcomes[2].rfind("file.smi:4, column 2: found byte 0xFF", 0), 0U) << outcomes[2];
    EXPECT_EQ(outcomes[3], "methanol");
}

TEST(SmilesList, HoldsNoEndlessLine) {
    EXPECT_NE(list(std::string(2U << 20U, 'C')).at(0).find("a line of more than 1 MiB"),
              std::string::npos);
}

} // namespace
} // namespace cospot
