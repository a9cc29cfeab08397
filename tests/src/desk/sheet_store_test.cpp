#include "desk/sheet_store.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <unistd.h>

#include <filesystem>
#include <string>

using namespace cospot;
using desk::SheetStore;

class SheetStoreTest : public ::testing::Test {
protected:
    void TearDown() override { std::filesystem::remove_all(folder_); }

    std::filesystem::path folder_ =
        std::filesystem::temp_directory_path() / ("cospot_sheets_" + std::to_string(getpid()));
    SheetStore store_{folder_};
};

TEST_F(SheetStoreTest, WhatWasEnteredOutlivesTheProgram) {
    const Json made =
        store_.create({{"kind", "plate"}, {"title", "week 3"}, {"entered", {{"start", 10}}}});
    const SheetStore later(folder_);
    const auto sheet = later.read(made["id"]);
    ASSERT_TRUE(sheet);
    EXPECT_EQ((*sheet)["title"], "week 3");
    EXPECT_EQ((*sheet)["entered"]["start"], 10);
    EXPECT_EQ((*sheet)["revision"], 1);
}

TEST_F(SheetStoreTest, AnOlderPageOverwritesNothing) {
    const std::string id = store_.create({{"title", "a"}})["id"];
    EXPECT_TRUE(std::holds_alternative<Json>(store_.write(id, {{"title", "b"}}, 1)));
    const auto late = store_.write(id, {{"title", "c"}}, 1);
    ASSERT_TRUE(std::holds_alternative<desk::ChangedMeanwhile>(late));
    EXPECT_EQ(std::get<desk::ChangedMeanwhile>(late).revision, 2);
    EXPECT_EQ((*store_.read(id))["title"], "b");
}

TEST_F(SheetStoreTest, APageCannotSetWhatTheStoreKeeps) {
    const Json made =
        store_.create({{"id", "x"}, {"revision", 99}, {"created", "never"}, {"title", "a"}});
    EXPECT_NE(made["id"], "x");
    EXPECT_EQ(made["revision"], 1);
    EXPECT_NE(made["created"], "never");
}

TEST_F(SheetStoreTest, SheetsAreFoundByAllTheirWords) {
    (void)store_.create({{"title", "Monday"}, {"entered", {{"system", "silica-HEA41"}}}});
    (void)store_.create({{"title", "Tuesday"}, {"entered", {{"system", "C18"}}}});
    EXPECT_EQ(store_.list("").size(), 2U);
    ASSERT_EQ(store_.list("SILICA monday").size(), 1U);
    EXPECT_EQ(store_.list("silica monday")[0]["title"], "Monday");
    EXPECT_FALSE(store_.list("silica")[0].contains("entered"));
    EXPECT_TRUE(store_.list("silica tuesday").empty());
}

TEST_F(SheetStoreTest, WhatIsPutAwayIsNotDestroyed) {
    const std::string id = store_.create({{"title", "a"}})["id"];
    store_.remove(id);
    EXPECT_FALSE(store_.read(id));
    EXPECT_TRUE(store_.list("").empty());
    std::size_t kept = 0;
    for (const auto &entry : std::filesystem::directory_iterator(folder_ / "removed")) {
        kept += std::filesystem::exists(entry.path() / "sheet.json") ? 1 : 0;
    }
    EXPECT_EQ(kept, 1U);
    EXPECT_NE(store_.create({{"title", "b"}})["id"], Json()); // an id that is free again
}

TEST_F(SheetStoreTest, NamesLeadToNoOtherPlace) {
    const std::string id = store_.create({{"title", "a"}})["id"];
    EXPECT_EQ(store_.file_of(id, "plate 2.csv"), folder_ / id / "plate 2.csv");
    for (const char *name :
         {"../x", "a/b", ".x", "", "-x", "sheet.json", "page.html", "a\nb", "ä.csv"}) {
        EXPECT_THROW((void)store_.file_of(id, name), InputError) << name;
    }
    for (const char *other : {"..", "../..", "", "removed", "2026-13", "1/2"}) {
        EXPECT_THROW((void)store_.folder_of(other), InputError) << other;
        EXPECT_FALSE(store_.read(other)) << other;
    }
}
