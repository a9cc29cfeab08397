#pragma once

#include "options/command.h"
#include "program/command_line.h"
#include "shared/text.h"

#include "../../library/temporary_library.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace cospot {

/// What one call of the program printed and returned.
struct Outcome {
    int code = 0;
    std::string out;
    std::string err;

    /// The lines of `out` as JSON.
    [[nodiscard]] std::vector<nlohmann::json> lines() const {
        std::vector<nlohmann::json> result;
        std::istringstream in(out);
        for (std::string line; std::getline(in, line);) {
            result.push_back(nlohmann::json::parse(line));
        }
        return result;
    }
};

/// A test that calls the program as a user does, in a folder of its own.
class ProgramTest : public testing::Test {
protected:
    ProgramTest() { cospot({"init"}); }

    Outcome cospot(std::vector<std::string> arguments, const std::string &input = "") const {
        arguments.insert(arguments.begin(), {"--library", (folder_ / "library.db").string()});
        std::istringstream in(input);
        std::ostringstream out;
        std::ostringstream err;
        const int code = run_command_line(arguments, in, out, err);
        return {code, out.str(), err.str()};
    }

    /// Writes a file into the test's folder and returns its path.
    std::string file(const std::string &name, const std::string &content) const {
        std::ofstream(folder_ / name, std::ios::binary) << content;
        return (folder_ / name).string();
    }

    /// The path of a file in the test's folder.
    [[nodiscard]] std::string path(const std::string &name) const {
        return (folder_ / name).string();
    }

    /// What a file in the test's folder holds.
    [[nodiscard]] std::string content(const std::string &name) const {
        std::ifstream in(folder_ / name, std::ios::binary);
        return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    }

    /// Everything that the library holds, for "nothing changed".
    std::string library_content() const {
        return cospot({"--json", "list"}).out + cospot({"--json", "list", "systems"}).out;
    }

    library::TemporaryFolder folder_;
};

#define EXPECT_HOLDS(text, part)                                                                   \
    EXPECT_NE(std::string(text).find(part), std::string::npos) << (text)

/// The text without line breaks, for sentences that were wrapped.
inline std::string on_one_line(std::string text) {
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
}

/// The same without the indents of wrapped lines.
inline std::string unwrapped(const std::string &text) {
    std::istringstream in(text);
    std::string line;
    for (std::string part; std::getline(in, part);) {
        part.erase(0, part.find_first_not_of(' '));
        line += (line.empty() ? "" : " ") + part;
    }
    return line;
}

inline void expect_fits_screen(const std::string &text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(display_width(line), 80U) << line;
    }
}

} // namespace cospot
