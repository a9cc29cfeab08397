#include "desk/desk.h"

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/io_context.hpp>
#include <gtest/gtest.h>

#include <unistd.h>

#include <exception>
#include <filesystem>
#include <string>

using namespace cospot;
using namespace cospot::desk;

class DeskTest : public ::testing::Test {
protected:
    void TearDown() override { std::filesystem::remove_all(folder_); }

    static Request request(http::verb method, const std::string &target,
                           const std::string &body = "") {
        Request one(method, target, 11);
        one.set(http::field::host, "127.0.0.1:4711");
        one.set(http::field::cookie, "cospot_desk_4711=key");
        one.set("X-Cospot-Desk", "1");
        one.body() = body;
        return one;
    }

    Response ask(http::verb method, const std::string &target, const std::string &body = "") {
        boost::asio::io_context context;
        Response answer;
        boost::asio::co_spawn(context, desk_.handler().answer(request(method, target, body)),
                              [&](const std::exception_ptr &error, Response given) {
                                  EXPECT_FALSE(error);
                                  answer = std::move(given);
                              });
        context.run();
        return answer;
    }

    std::filesystem::path folder_ =
        std::filesystem::temp_directory_path() / ("cospot_desk_" + std::to_string(getpid()));
    bool has_ended_ = false;
    Desk desk_{{.library = folder_ / "l.db", .sheets = folder_ / "sheets", .pages = {}},
               RequestGuard("key", 4711),
               [this] { has_ended_ = true; }};
};

TEST_F(DeskTest, GivesItsPagesWithRulesThatForbidAllElse) {
    const Response page = ask(http::verb::get, "/");
    EXPECT_EQ(page.result(), http::status::ok);
    EXPECT_NE(page.body().find("<script type=\"module\" src=\"/desk.js\">"), std::string::npos);
    EXPECT_NE(page["Content-Security-Policy"].find(
                  "default-src 'none'; script-src 'self'; style-src 'self'"),
              boost::beast::string_view::npos);
    EXPECT_EQ(page["Cache-Control"], "no-store");
    EXPECT_EQ(ask(http::verb::get, "/desk.js")[http::field::content_type],
              "text/javascript; charset=utf-8");
    EXPECT_NE(ask(http::verb::get, "/report.js").body().find("export { enliven }"),
              std::string::npos);
}

TEST_F(DeskTest, KeepsSheetsAndTheirFiles) {
    const Json made = Json::parse(ask(http::verb::post, "/api/sheets", R"({"title":"a"})").body());
    const std::string sheet = "/api/sheets/" + made["id"].get<std::string>();
    EXPECT_EQ(ask(http::verb::put, sheet + "/files/plate.csv", "lane,label\n").result(),
              http::status::ok);
    EXPECT_EQ(ask(http::verb::get, sheet + "/files/plate.csv").body(), "lane,label\n");
    EXPECT_EQ(ask(http::verb::put, sheet + "?revision=1", R"({"title":"b"})").result(),
              http::status::ok);
    EXPECT_EQ(ask(http::verb::put, sheet + "?revision=1", R"({"title":"c"})").result(),
              http::status::conflict);
    EXPECT_EQ(Json::parse(ask(http::verb::get, sheet).body())["title"], "b");
    EXPECT_EQ(ask(http::verb::delete_, sheet).result(), http::status::ok);
    EXPECT_EQ(ask(http::verb::get, sheet).result(), http::status::not_found);
}

TEST_F(DeskTest, SaysWhatIsWrongWithARequest) {
    EXPECT_EQ(ask(http::verb::get, "/nothing").result(), http::status::not_found);
    EXPECT_EQ(ask(http::verb::get, "/api/nothing").result(), http::status::not_found);
    EXPECT_EQ(ask(http::verb::get, "/desk.css/more").result(), http::status::not_found);
    const Response no_json = ask(http::verb::post, "/api/sheets", "{");
    EXPECT_EQ(no_json.result(), http::status::bad_request);
    EXPECT_NE(no_json.body().find("expected JSON"), std::string::npos);
    const Response no_sheet = ask(http::verb::put, "/api/sheets/2026-1?revision=1", "{}");
    EXPECT_EQ(no_sheet.result(), http::status::bad_request);
    EXPECT_NE(no_sheet.body().find("no sheet"), std::string::npos);
    const Response no_verb = ask(http::verb::post, "/api/library/run/work", R"({"verb":"merge"})");
    EXPECT_EQ(no_verb.result(), http::status::bad_request);
}

TEST_F(DeskTest, RefusesBeforeABodyIsRead) {
    Request foreign = request(http::verb::post, "/api/sheets");
    foreign.set(http::field::origin, "http://evil.example");
    const auto refused = desk_.handler().refuse(foreign);
    ASSERT_TRUE(refused);
    EXPECT_EQ(refused->result(), http::status::forbidden);
    EXPECT_FALSE(desk_.handler().refuse(request(http::verb::get, "/")));
    EXPECT_LT(desk_.handler().body_limit(request(http::verb::post, "/api/sheets")),
              desk_.handler().body_limit(request(http::verb::put, "/api/sheets/1/files/x.jpg")));
}

TEST_F(DeskTest, EndsWhenAskedTo) {
    EXPECT_EQ(ask(http::verb::get, "/api/end").result(), http::status::not_found);
    EXPECT_FALSE(has_ended_);
    EXPECT_EQ(ask(http::verb::post, "/api/end").result(), http::status::ok);
    EXPECT_TRUE(has_ended_);
}
