// Which files are taken for traces, what is refused by name, and which trace of several is chosen.
#include "traces/trace_file.h"

#include "shared/error.h"
#include "traces/inflate.h"

#include <gtest/gtest.h>
#include <zlib.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace cospot {
namespace {

std::string gzipped(const std::string &text) {
    z_stream stream{};
    EXPECT_EQ(deflateInit2(&stream, 9, Z_DEFLATED, 15 + 16, 8, Z_DEFAULT_STRATEGY), Z_OK);
    std::string bytes(deflateBound(&stream, text.size()), '\0');
    std::string content = text;
    stream.next_in = reinterpret_cast<Bytef *>(content.data());
    stream.avail_in = static_cast<uInt>(content.size());
    stream.next_out = reinterpret_cast<Bytef *>(bytes.data());
    stream.avail_out = static_cast<uInt>(bytes.size());
    EXPECT_EQ(deflate(&stream, Z_FINISH), Z_STREAM_END);
    bytes.resize(stream.total_out);
    (void)deflateEnd(&stream);
    return bytes;
}

std::string text_trace(int rows) {
    std::string text = "Time (min),Signal\n";
    for (int i = 0; i < rows; ++i) {
        text += std::to_string(i) + "," + std::to_string(i * i % 17) + "\n";
    }
    return text;
}

std::string content_refusal(const std::string &bytes) {
    try {
        std::istringstream in(bytes);
        (void)read_trace(in, "run");
    } catch (const InputError &error) {
        return error.what();
    }
    return "no error";
}

TEST(TraceFile, IsKnownByItsContent) {
    EXPECT_TRUE(is_trace(std::string("CDF\x01\0\0\0\0", 8)));
    EXPECT_TRUE(is_trace("CDF\x05"));
    EXPECT_TRUE(is_trace("\x89HDF\r\n\x1A\n"));
    EXPECT_TRUE(is_trace("<?xml version=\"1.0\"?><mzML"));
    EXPECT_TRUE(is_trace("\xEF\xBB\xBF<?xml version=\"1.0\"?>"));
    EXPECT_TRUE(is_trace(std::string("\xFF\xFE<\0?\0x\0", 8)));
    EXPECT_TRUE(is_trace("##TITLE= a\n"));
    EXPECT_TRUE(is_trace("\n$$ comment\n## title = a\n"));
    EXPECT_TRUE(is_trace(text_trace(60)));
    EXPECT_TRUE(is_trace(gzipped(text_trace(60))));
}

TEST(TraceFile, IsNoTableOfTheProgram) {
    for (const char *text :
         {"", "peak,tR,area\nA,3.1,100\n", "lane;label;spot;distance_mm;front_mm\n1;a;1;20;60\n",
          "{\"peaks\": []}", "[1, 2, 3]", "CDF,1\n", "CCO ethanol\n", "> <NAME>\n",
          "sample\tfeature\tsystem\tquantity\tvalue\n", "##FOO= a\n", "# <?xml\n"}) {
        EXPECT_FALSE(is_trace(text)) << text;
    }
    EXPECT_FALSE(is_trace(gzipped("peak,tR,area\nA,3.1,100\n")));
}

TEST(TraceFile, IsReadOutOfGzip) {
    const std::string bytes = gzipped(text_trace(20'000));
    std::istringstream in(bytes);
    EXPECT_EQ(read_trace(in, "run.txt.gz").traces[0].signal.size(), 20'000U);
    const std::string twice = gzipped(text_trace(60)) + gzipped("99,1\n"); // two members
    std::istringstream members(twice);
    EXPECT_EQ(read_trace(members, "run.txt.gz").traces[0].signal.size(), 61U);
}

TEST(TraceFile, IsRefusedByNameInDamagedGzip) {
    const std::string bytes = gzipped(text_trace(20'000));
    EXPECT_EQ(content_refusal(bytes.substr(0, bytes.size() / 2)),
              "run, column gzip: found a file that is cut off; expected a whole gzip file");
    EXPECT_EQ(content_refusal(bytes.substr(0, bytes.size() - 1)),
              "run, column gzip: found a file that is cut off; expected a whole gzip file");
    std::string damaged = bytes;
    damaged[bytes.size() / 2] = static_cast<char>(~damaged[bytes.size() / 2]);
    EXPECT_NE(content_refusal(damaged).find("found damaged data"), std::string::npos);
    EXPECT_NE(content_refusal(gzipped(bytes)).find("found a file compressed twice"),
              std::string::npos);
}

TEST(TraceFile, IsRefusedWhereItIsTooLargeOrAbsent) {
    const std::string path = ::testing::TempDir() + "cospot_large_trace";
    std::ofstream(path).put('\0');
    std::filesystem::resize_file(path, (1ULL << 30U) + 1); // a hole: it takes no room on the disk
    try {
        (void)read_trace_file(path);
        FAIL();
    } catch (const InputError &error) {
        EXPECT_EQ(error.expected(), "a file of at most 1 GiB");
    }
    std::filesystem::remove(path);
    EXPECT_THROW((void)read_trace_file(path), InputError);
    EXPECT_THROW((void)read_trace_file(::testing::TempDir()), InputError);
}

TraceFile three_traces() {
    return {.file = "run",
            .traces = {{.name = "TIC", .kind = "total ion current"},
                       {.name = "UV 254", .kind = "absorption"},
                       {.name = "pump", .kind = "pressure", .holds_peaks = false}}};
}

std::string choice_refused(const TraceFile &file, const std::string &which) {
    try {
        (void)chosen(file, which);
    } catch (const InputError &error) {
        return error.what();
    }
    return "no error";
}

TEST(ChosenTrace, IsTheOneThatHoldsPeaks) {
    TraceFile file = three_traces();
    EXPECT_EQ(choice_refused(file, ""),
              "run: found 2 traces that hold peaks: 1 \"TIC\" (total ion current), 2 \"UV 254\" "
              "(absorption), 3 \"pump\" (pressure, no peaks); expected --trace with the number of "
              "one of them");
    file.traces.erase(file.traces.begin());
    EXPECT_EQ(chosen(file, "").name, "UV 254");
}

TEST(ChosenTrace, IsAskedForWhereNoneHoldsPeaks) {
    TraceFile file = three_traces();
    file.traces.erase(file.traces.begin(), file.traces.begin() + 2);
    EXPECT_EQ(choice_refused(file, ""), "run: found no traces that hold peaks: 1 \"pump\" "
                                        "(pressure, no peaks); expected --trace with the number "
                                        "of one of them");
    EXPECT_EQ(chosen(file, "1").name, "pump");
}

TEST(ChosenTrace, GoesByNameOrNumber) {
    const TraceFile file = three_traces();
    EXPECT_EQ(chosen(file, "uv 254").name, "UV 254");
    EXPECT_EQ(chosen(file, "1").name, "TIC");
    EXPECT_EQ(chosen(file, "3").name, "pump");
    EXPECT_EQ(choice_refused(file, "4").rfind("run: found no traces named \"4\": 1 \"TIC\"", 0),
              0U);
    EXPECT_NE(choice_refused(file, "0"), "no error");
}

TEST(ChosenTrace, AsksWhereNamesAreNotUnique) {
    TraceFile file = three_traces();
    file.traces[1].name = "tic";
    EXPECT_EQ(choice_refused(file, "TIC").rfind("run: found 2 traces named \"TIC\": 1", 0), 0U);
    EXPECT_EQ(chosen(file, "2").name, "tic");
}

TEST(Inflated, GivesExactlyTheDeclaredSize) {
    EXPECT_THROW((void)inflated("", 0, {"run", 1, ""}), InputError);
}

} // namespace
} // namespace cospot
