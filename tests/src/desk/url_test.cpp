#include "desk/url.h"

#include <gtest/gtest.h>

using cospot::desk::target_of;

// Examples of percent-encoding: RFC 3986, sections 2.1 and 3.3.
TEST(Url, TakesAPathApartBeforeItIsDecoded) {
    const auto target = target_of("/api/sheets/2026-12-02-1/files/a%2Fb%20c.csv");
    EXPECT_EQ(target.path,
              (std::vector<std::string>{"api", "sheets", "2026-12-02-1", "files", "a/b c.csv"}));
}

TEST(Url, FindsQuestions) {
    const auto target = target_of("/api/sheets?words=%C3%A4ther+hexane&revision=12&empty");
    EXPECT_EQ(target.question("words"), "äther hexane");
    EXPECT_EQ(target.question("revision"), "12");
    EXPECT_EQ(target.question("empty"), "");
    EXPECT_EQ(target.question("absent"), "");
}

TEST(Url, LeavesWhatIsNoEncodingAsItIs) {
    EXPECT_EQ(target_of("/100%/%zz/%4").path, (std::vector<std::string>{"100%", "%zz", "%4"}));
    EXPECT_TRUE(target_of("").path.empty());
    EXPECT_TRUE(target_of("//?").path.empty());
}
