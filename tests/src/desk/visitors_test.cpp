#include "desk/visitors.h"

#include <gtest/gtest.h>

#include <chrono>
#include <string>

using namespace cospot::desk;
using namespace std::chrono_literals;

namespace {

constexpr const char *kClassHost = "192.168.1.20:8080";

/// The cookie that somebody gets who enters with the right code.
std::string entered(Visitors &visitors, const std::string &name, Visitors::Time now = {}) {
    std::string cookie;
    EXPECT_EQ(visitors.enter(visitors.code(), name, now, cookie), Visitors::Entry::entered);
    return cookie.substr(0, cookie.find(';'));
}

} // namespace

TEST(Visitors, EnterWithTheCodeHoweverItIsTyped) {
    Visitors visitors("ABCD-2345", kClassHost, false);
    std::string cookie;
    for (const char *code : {"ABCD-2345", "abcd 2345", "abcd2345"}) {
        EXPECT_EQ(visitors.enter(code, "group 1", {}, cookie), Visitors::Entry::entered) << code;
    }
    for (const char *code : {"", "ABCD", "ABCD-2346", "ABCD-23456"}) {
        EXPECT_EQ(visitors.enter(code, "group 1", {}, cookie), Visitors::Entry::wrong_code) << code;
    }
}

TEST(Visitors, CodesAreNotGuessedQuickly) {
    Visitors visitors("ABCD-2345", kClassHost, false);
    std::string cookie;
    for (int i = 0; i < 10; ++i) {
        EXPECT_EQ(visitors.enter("wrong", "x", Visitors::Time(100s), cookie),
                  Visitors::Entry::wrong_code);
    }
    EXPECT_EQ(visitors.enter("ABCD-2345", "x", Visitors::Time(110s), cookie),
              Visitors::Entry::too_often);
    EXPECT_EQ(visitors.enter("ABCD-2345", "x", Visitors::Time(161s), cookie),
              Visitors::Entry::entered);
}

TEST(Visitors, AreKnownByTheirCookie) {
    Visitors visitors("ABCD-2345", kClassHost, false);
    const std::string one = entered(visitors, "group 1");
    const std::string two = entered(visitors, "group 2");
    ASSERT_NE(visitors.who("a=b; " + one), nullptr);
    EXPECT_EQ(visitors.who(one)->name, "group 1");
    EXPECT_NE(visitors.who(one)->id, visitors.who(two)->id);
    EXPECT_EQ(visitors.who(""), nullptr);
    EXPECT_EQ(visitors.who("cospot_class=0123"), nullptr);
}

TEST(Visitors, MayHaveThirtyPiecesOfWorkDoneInTenSeconds) {
    Visitors visitors("ABCD-2345", kClassHost, false);
    const Visitor &one = *visitors.who(entered(visitors, "group 1"));
    const Visitor &two = *visitors.who(entered(visitors, "group 2"));
    for (int i = 0; i < 30; ++i) {
        EXPECT_TRUE(visitors.may_work(one, Visitors::Time(100s)));
    }
    EXPECT_FALSE(visitors.may_work(one, Visitors::Time(109s)));
    EXPECT_TRUE(visitors.may_work(two, Visitors::Time(109s)));
    EXPECT_TRUE(visitors.may_work(one, Visitors::Time(111s)));
}

TEST(Visitors, AskUnderTheAddressThatWasTold) {
    const Visitors plain("ABCD-2345", kClassHost, false);
    RequestHead head{.method = "GET",
                     .target = "/",
                     .host = kClassHost,
                     .origin = "http://192.168.1.20:8080",
                     .fetch_site = "",
                     .cookie = "",
                     .own_header = ""};
    EXPECT_EQ(plain.judge(head), Verdict::answered);
    EXPECT_EQ(Visitors("A", kClassHost, true).judge(head), Verdict::foreign);
    head.method = "POST";
    EXPECT_EQ(plain.judge(head), Verdict::not_by_page);
    head.host = "192.168.1.21:8080";
    EXPECT_EQ(plain.judge(head), Verdict::wrong_host);
}

TEST(Visitors, CodesAreReadAloudWithoutMistake) {
    const std::string code = random_code();
    EXPECT_EQ(code.size(), 9U);
    EXPECT_EQ(code.find_first_of("01IO8"), std::string::npos);
    EXPECT_NE(code, random_code());
}
