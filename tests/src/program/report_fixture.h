#pragma once

#include "program_fixture.h"

#include <string>
#include <vector>

namespace cospot {

/// A test of --report.
class ReportsTest : public ProgramTest {
protected:
    /// What a person reads of a page: without the report as data, the style and the trace.
    [[nodiscard]] std::string main_of(const std::string &name) const {
        const std::string page = content(name);
        const std::size_t begin = page.find("<main>");
        return page.substr(begin, page.find("</main>") - begin);
    }

    /// The objects that the command prints with --json, and those of its report, same.json.
    void expect_same_objects(std::vector<std::string> arguments, const std::string &input = "") {
        arguments.insert(arguments.begin(), "--json");
        arguments.insert(arguments.end(), {"--report", path("same.json")});
        const Outcome printed = cospot(arguments, input);
        ASSERT_NE(printed.code, kBadInput) << printed.err;
        ASSERT_FALSE(printed.lines().empty());
        EXPECT_EQ(nlohmann::json::parse(content("same.json")).at("results"),
                  nlohmann::json(printed.lines()));
    }
};

inline void expect_parts(const std::string &text, const std::vector<std::string> &parts) {
    for (const std::string &part : parts) {
        EXPECT_NE(text.find(part), std::string::npos) << part;
    }
}

} // namespace cospot
