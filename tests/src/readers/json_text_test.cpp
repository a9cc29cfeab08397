#include "readers/json_text.h"

#include "shared/error.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace cospot {
namespace {

std::string message_of(const std::string &text) {
    try {
        (void)parse_json(text, "rules.json", "rules");
    } catch (const InputError &error) {
        return error.what();
    }
    return "no error";
}

TEST(JsonText, IsParsed) {
    EXPECT_EQ(parse_json("{\"a\": [1, \"[[\\\"\"]}", "rules.json", "rules")["a"][0], 1);
}

TEST(JsonText, NamesThePlaceWhereItIsMalformed) {
    EXPECT_EQ(message_of("{\"a\": 1,\n \"b\": }"),
              "rules.json:2, column 7: found malformed JSON; expected rules");
    EXPECT_EQ(message_of("}"), "rules.json:1, column 1: found malformed JSON; expected rules");
    EXPECT_EQ(message_of("").rfind("rules.json:1, column 1:", 0), 0U) << message_of("");
    EXPECT_NE(message_of("{\"a\": \"\xFF\"}").find("malformed"), std::string::npos);
}

TEST(JsonText, NamesThePlaceOfANumberThatIsTooLarge) {
    const std::string message = message_of("{\"a\": 1,\n \"b\": 1e999}");
    EXPECT_EQ(message.rfind("rules.json:2, column ", 0), 0U) << message;
    EXPECT_NE(message.find("a number that is too large"), std::string::npos) << message;
}

TEST(JsonText, IsRefusedWhereBracketsLieTooDeep) {
    EXPECT_EQ(message_of(std::string(16, '[') + std::string(16, ']')), "no error");
    EXPECT_EQ(message_of("{\"a\":\n" + std::string(1'000'000, '[')),
              "rules.json:2, column 16: found brackets more than 16 deep; expected rules");
}

} // namespace
} // namespace cospot
