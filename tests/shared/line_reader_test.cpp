#include "shared/line_reader.h"

#include <gtest/gtest.h>

#include <iconv.h>
#include <sstream>
#include <vector>

namespace cospot {
namespace {

std::vector<std::string> lines_of(const std::string &text) {
    std::istringstream in(text);
    LineReader reader(in, "file.txt", "a list in UTF-8");
    std::vector<std::string> lines;
    for (std::string line; reader.next(line);) {
        lines.push_back(line);
    }
    return lines;
}

std::string line_message_of(const std::string &text) {
    try {
        (void)lines_of(text);
    } catch (const InputError &error) {
        return error.what();
    }
    return "no error";
}

TEST(LineReader, KnowsAllLineEnds) {
    const std::vector<std::string> expected{"a", "", "b"};
    EXPECT_EQ(lines_of("a\n\nb\n"), expected);
    EXPECT_EQ(lines_of("a\r\n\r\nb"), expected);
    EXPECT_EQ(lines_of("a\r\rb\r"), expected);
    EXPECT_TRUE(lines_of("").empty());
}

TEST(LineReader, DropsByteOrderMarkOfTheFirstLineOnly) {
    EXPECT_EQ(lines_of("\xEF\xBB\xBFone\n\xEF\xBB\xBFtwo\n"),
              (std::vector<std::string>{"one", "\xEF\xBB\xBFtwo"}));
}

/// The characters and their bytes are the examples of The Unicode Standard, table 3-4 (read).
TEST(LineReader, ReadsUtf16WithAByteOrderMark) {
    const std::string big("\xFE\xFF\0M\x04\x30\x4E\x8C\xD8\x00\xDF\x02\0\r\0\n\0x", 18);
    EXPECT_EQ(lines_of(big),
              (std::vector<std::string>{"M\xD0\xB0\xE4\xBA\x8C\xF0\x90\x8C\x82", "x"}));
    const std::string little("\xFF\xFEM\0\x30\x04\x8C\x4E\x00\xD8\x02\xDF\r\0x\0", 16);
    EXPECT_EQ(lines_of(little),
              (std::vector<std::string>{"M\xD0\xB0\xE4\xBA\x8C\xF0\x90\x8C\x82", "x"}));
    EXPECT_EQ(lines_of("\xFF\xFE"), std::vector<std::string>{});
}

std::vector<std::string> windows_lines_of(const std::string &text, std::size_t &first) {
    std::istringstream in(text);
    LineReader reader(in, "file.txt", "a list in UTF-8", OtherText::windows_1252);
    std::vector<std::string> lines;
    for (std::string line; reader.next(line);) {
        lines.push_back(line);
    }
    first = reader.first_of_windows_1252();
    return lines;
}

/// A byte of Windows-1252 in UTF-8, as the C library converts it; empty for what is none.
std::string by_the_c_library(char byte) {
    const iconv_t converter = iconv_open("UTF-8", "WINDOWS-1252");
    std::string utf8(8, '\0');
    char *from = &byte;
    char *to = utf8.data();
    std::size_t from_left = 1;
    std::size_t to_left = utf8.size();
    const bool is_known = iconv(converter, &from, &from_left, &to, &to_left) == 0;
    iconv_close(converter);
    utf8.resize(is_known ? utf8.size() - to_left : 0);
    return utf8;
}

TEST(LineReader, ReadsWindows1252AsTheCLibraryDoes) {
    for (int byte = 0x80; byte <= 0xFF; ++byte) {
        const std::string text(1, static_cast<char>(byte));
        const std::string expected = by_the_c_library(text.front());
        std::size_t first = 0;
        if (expected.empty()) {
            EXPECT_THROW((void)windows_lines_of(text, first), InputError) << byte;
        } else {
            EXPECT_EQ(windows_lines_of("a\n" + text, first),
                      (std::vector<std::string>{"a", expected}));
            EXPECT_EQ(first, 2U);
        }
    }
}

/// Two bytes that UTF-8 allows as well are letters of Windows-1252 where the file is of that kind,
/// but one character of UTF-8 says that the file is not.
TEST(LineReader, AFileHasOneEncoding) {
    std::size_t first = 0;
    EXPECT_EQ(windows_lines_of("\xFC\n\xC3\xBC", first),
              (std::vector<std::string>{"\xC3\xBC", "\xC3\x83\xC2\xBC"}));
    EXPECT_THROW((void)windows_lines_of("\xC3\xBC\n\xFC", first), InputError);
    EXPECT_EQ(windows_lines_of("\xC3\xBC", first), std::vector<std::string>{"\xC3\xBC"});
    EXPECT_EQ(first, 0U);
}

TEST(LineReader, NamesThePlaceOfWhatIsNoText) {
    EXPECT_EQ(line_message_of("a\nb\xFF\n"),
              "file.txt:2, column 2: found byte 0xFF; expected a list in UTF-8");
    EXPECT_EQ(line_message_of(std::string("a\0\n", 3)),
              "file.txt:1, column 2: found byte 0x00; expected a list in UTF-8");
    EXPECT_NE(line_message_of("\xFF\xFE"
                              "a")
                  .find("half a character of UTF-16"),
              std::string::npos);
    EXPECT_NE(line_message_of(std::string("\xFE\xFF\xD8\x3D\0a", 6)).find("half a character"),
              std::string::npos);
    EXPECT_NE(line_message_of("\xFF;").find("byte 0xFF"), std::string::npos);
}

TEST(LineReader, HoldsNoEndlessLine) {
    EXPECT_EQ(lines_of(std::string(1U << 20U, 'x')).size(), 1U);
    EXPECT_NE(line_message_of(std::string(2U << 20U, 'x')).find("more than 1 MiB"),
              std::string::npos);
}

TEST(LineReader, GoesOnBehindWhatItRefused) {
    std::istringstream in("a\xFF\nb\n");
    LineReader reader(in, "file.txt", "a list in UTF-8");
    std::string line;
    EXPECT_THROW((void)reader.next(line), InputError);
    ASSERT_TRUE(reader.next(line));
    EXPECT_EQ(line, "b");
    EXPECT_EQ(reader.line(), 2U);
}

} // namespace
} // namespace cospot
