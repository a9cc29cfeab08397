#include "desk/request_guard.h"

#include <gtest/gtest.h>

using namespace cospot::desk;

namespace {

constexpr const char *kKey = "00112233445566778899aabbccddeeff";
constexpr const char *kCookie = "other=1; cospot_desk_4711=00112233445566778899aabbccddeeff";

const RequestGuard &guard() {
    static const RequestGuard one(kKey, 4711);
    return one;
}

/// A request that the desk's own page makes.
RequestHead own_request() {
    return {.method = "POST",
            .target = "/api/sheets",
            .host = "127.0.0.1:4711",
            .origin = "http://127.0.0.1:4711",
            .fetch_site = "same-origin",
            .cookie = kCookie,
            .own_header = "1"};
}

} // namespace

TEST(RequestGuard, AnswersItsOwnPages) {
    EXPECT_EQ(guard().judge(own_request()), Verdict::answered);
    RequestHead by_name = own_request();
    by_name.host = "localhost:4711";
    by_name.origin = "http://localhost:4711";
    EXPECT_EQ(guard().judge(by_name), Verdict::answered);
}

TEST(RequestGuard, LetsInWhoBringsTheKeyOnly) {
    RequestHead entering{.method = "GET",
                         .target = "/?key=00112233445566778899aabbccddeeff",
                         .host = "127.0.0.1:4711",
                         .origin = "",
                         .fetch_site = "none",
                         .cookie = "",
                         .own_header = ""};
    EXPECT_EQ(guard().judge(entering), Verdict::enters);
    entering.target = "/?key=00112233445566778899aabbccddeefe";
    EXPECT_EQ(guard().judge(entering), Verdict::no_key);
    entering.target = "/";
    EXPECT_EQ(guard().judge(entering), Verdict::no_key);
}

TEST(RequestGuard, AnswersUnderItsOwnNamesOnly) {
    for (const char *host : {"", "evil.example:4711", "127.0.0.1", "127.0.0.1:80",
                             "127.0.0.1:47110", "localhost.evil.example:4711"}) {
        RequestHead head = own_request();
        head.host = host;
        EXPECT_EQ(guard().judge(head), Verdict::wrong_host) << host;
    }
}

TEST(RequestGuard, RefusesOtherPagesOfTheSameBrowser) {
    for (const char *origin :
         {"http://evil.example", "null", "https://127.0.0.1:4711", "http://127.0.0.1:4712"}) {
        RequestHead head = own_request();
        head.origin = origin;
        EXPECT_EQ(guard().judge(head), Verdict::foreign) << origin;
    }
    for (const char *site : {"cross-site", "same-site"}) {
        RequestHead head = own_request();
        head.fetch_site = site;
        EXPECT_EQ(guard().judge(head), Verdict::foreign) << site;
    }
}

TEST(RequestGuard, ChangesNothingWithoutTheHeaderThatOnlyItsPagesCanSend) {
    for (const char *method : {"POST", "PUT", "DELETE", "PATCH"}) {
        RequestHead head = own_request();
        head.method = method;
        head.own_header = "";
        EXPECT_EQ(guard().judge(head), Verdict::not_by_page) << method;
    }
}

TEST(RequestGuard, TakesTheCookieOfItsOwnPortOnly) {
    for (const char *cookie : {"", "cospot_desk_4712=00112233445566778899aabbccddeeff",
                               "cospot_desk_4711=", "cospot_desk_4711=00112233",
                               "xcospot_desk_4711=00112233445566778899aabbccddeeff"}) {
        RequestHead head = own_request();
        head.cookie = cookie;
        EXPECT_EQ(guard().judge(head), Verdict::no_key) << cookie;
    }
    EXPECT_NE(guard().cookie().find("HttpOnly; SameSite=Strict"), std::string::npos);
}

TEST(RequestGuard, KeysHave128RandomBits) {
    const std::string key = random_key();
    EXPECT_EQ(key.size(), 32U);
    EXPECT_EQ(key.find_first_not_of("0123456789abcdef"), std::string::npos);
    EXPECT_NE(key, random_key());
}
