// Libraries of older programs, whose changes went into a write-ahead log.
#include "library/backup.h"
#include "sample_library.h"
#include "shared/error.h"
#include "unprivileged.h"

#include <gtest/gtest.h>

namespace cospot::library {
namespace {

namespace fs = std::filesystem;

class WriteAheadLog : public testing::Test {
protected:
    WriteAheadLog() {
        create_library(file_);
        Database database(file_, Access::write);
        database.execute("INSERT INTO change (id, at_utc, who, action, detail) VALUES (1, "
                         "'2025-01-31T09:30:00Z', 'anna', 'learn', "
                         "''); PRAGMA journal_mode = WAL");
    }

    [[nodiscard]] std::int64_t changes_seen(const Database &database) const {
        Statement query = database.prepare("SELECT count(*) FROM change");
        return query.step() ? query.integer(0) : -1;
    }

    [[nodiscard]] std::ptrdiff_t files() const {
        return std::distance(fs::directory_iterator(folder_ / ""), fs::directory_iterator());
    }

    Database open(Access access) {
        return open_library(file_, access,
                            [&](const std::string &note) { notes_.push_back(note); });
    }

    TemporaryFolder folder_;
    const fs::path file_ = folder_ / "old.db";
    const fs::path kept_ =
        folder_ / ("old.db.format-" + std::to_string(schema_version()) + ".backup");
    std::vector<std::string> notes_;
};

TEST_F(WriteAheadLog, ReadingKeepsTheLog) {
    {
        const Database reader = open(Access::read);
        EXPECT_EQ(changes_seen(reader), 1);
        EXPECT_TRUE(has_write_ahead_log(reader));
    }
    EXPECT_EQ(files(), 1);
    EXPECT_EQ(notes_.size(), 0U);
}

TEST_F(WriteAheadLog, TheFirstWriteMakesABackupAndEndsTheLog) {
    EXPECT_FALSE(has_write_ahead_log(open(Access::write)));
    ASSERT_EQ(notes_.size(), 1U);
    EXPECT_NE(notes_.front().find(kept_.string()), std::string::npos) << notes_.front();
    EXPECT_EQ(changes_seen(open_unchanged(kept_)), 1);
    EXPECT_EQ(changes_seen(open(Access::write)), 1);
    EXPECT_EQ(notes_.size(), 1U); // once
    EXPECT_EQ(files(), 2);
}

TEST_F(WriteAheadLog, AnUpgradeEndsTheLogWithOneBackup) {
    const fs::path oldest = folder_ / "oldest.db";
    create_filled_format_1(oldest);
    EXPECT_FALSE(has_write_ahead_log(open_library(oldest, Access::write)));
    EXPECT_EQ(files(), 3);
}

TEST_F(WriteAheadLog, StaysInUseWhileAnotherProgramHasTheLibraryOpen) {
    {
        const Database other = open(Access::read);
        EXPECT_EQ(changes_seen(other), 1);
        Database writer = open(Access::write);
        EXPECT_TRUE(has_write_ahead_log(writer));
        EXPECT_FALSE(fs::exists(kept_));
        Transaction transaction(writer);
        (void)begin_change(writer, "test", "");
        transaction.commit();
        EXPECT_EQ(changes_seen(other), 2);
    }
    EXPECT_EQ(notes_.size(), 0U);
    const Database alone = open(Access::write);
    EXPECT_FALSE(has_write_ahead_log(alone));
    EXPECT_EQ(changes_seen(alone), 2);
}

TEST_F(WriteAheadLog, ChangesOfAKilledProgramAreNotLost) {
    const fs::path copy = folder_ / "copy.db";
    {
        Database writer(file_, Access::write);
        (void)begin_change(writer, "test", "");
        fs::copy(file_, copy);
        fs::copy(file_.string() + "-wal", copy.string() + "-wal");
    }
    EXPECT_EQ(changes_seen(open_library(copy, Access::read)), 2);
    EXPECT_EQ(changes_seen(open_library(copy, Access::write)), 2);
    EXPECT_FALSE(fs::exists(copy.string() + "-wal"));
    EXPECT_EQ(files(), 3); // with the copy and its backup
}

TEST_F(WriteAheadLog, AUserWhoMayOnlyReadCreatesNoLog) {
    chmod((folder_ / "").c_str(), 0777);
    chmod(file_.c_str(), 0444);
    const OrdinaryUser reader;
    try {
        (void)open(Access::read);
        FAIL() << "a log of a user who may only read keeps the owner from writing";
    } catch (const InputError &error) {
        EXPECT_NE(error.found().find("older cospot"), std::string::npos) << error.what();
        EXPECT_NE(error.expected().find("copy the library"), std::string::npos) << error.what();
    }
    EXPECT_EQ(files(), 1);
}

TEST_F(WriteAheadLog, ABackupHasNoLog) {
    (void)back_up(open_unchanged(file_), folder_ / "copy.db");
    EXPECT_FALSE(has_write_ahead_log(open_unchanged(folder_ / "copy.db")));
    EXPECT_EQ(files(), 2);
}

} // namespace
} // namespace cospot::library
