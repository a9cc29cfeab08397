#include "library/database.h"

#include "sample_library.h"
#include "unprivileged.h"

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <fstream>

namespace cospot::library {
namespace {

namespace fs = std::filesystem;

std::int64_t values_in(const fs::path &file) {
    const Database database = open_library(file, Access::read);
    Statement count = database.prepare("SELECT count(*) FROM measurement");
    return count.step() ? count.integer(0) : -1;
}

/// A library with one value in a folder of its own, closed.
class ReadOnlyMedium : public testing::Test {
protected:
    ReadOnlyMedium() {
        SampleLibrary library;
        library.value(library.compound('A', "alpha"), library.system("silica", "hexane"), 0.25);
        Database copy(file_, Access::create);
        library.database.copy_into(copy);
    }
    TemporaryFolder folder_;
    fs::path file_ = folder_ / "what # is? 100%.db";
};

TEST_F(ReadOnlyMedium, LibraryIsRead) {
    const ReadOnlyFolder read_only(folder_ / "");
    EXPECT_EQ(values_in(file_), 1);
}

TEST_F(ReadOnlyMedium, LibraryWithAJournalThatHoldsNothingIsRead) {
    { const std::ofstream empty(file_.string() + "-journal"); }
    const ReadOnlyFolder read_only(folder_ / "");
    EXPECT_EQ(values_in(file_), 1);
}

TEST_F(ReadOnlyMedium, AChangeThatWasCutOffIsNotRead) {
    const TemporaryFolder copy;
    copy_cut_off(file_, "UPDATE compound SET name = name || '!'; DELETE FROM measurement",
                 copy / "copy.db");
    {
        const ReadOnlyFolder read_only(copy / "");
        try {
            (void)values_in(copy / "copy.db");
            FAIL() << "read half a change";
        } catch (const DatabaseError &error) {
            EXPECT_NE(std::string(error.what()).find("cut off"), std::string::npos) << error.what();
            EXPECT_NE(std::string(error.what()).find("-journal"), std::string::npos)
                << error.what();
        }
    }
    chmod((copy / "copy.db").c_str(), 0644);
    chmod((copy / "copy.db-journal").c_str(), 0644);
    EXPECT_EQ(values_in(copy / "copy.db"), 1); // who may write puts it in order by reading
    EXPECT_FALSE(fs::exists(copy / "copy.db-journal"));
}

TEST_F(ReadOnlyMedium, WritingSaysThatItCannot) {
    const ReadOnlyFolder read_only(folder_ / "");
    try {
        Database database = open_library(file_, Access::write);
        const Transaction transaction(database);
        (void)begin_change(database, "test", "");
        FAIL() << "wrote into a read-only folder";
    } catch (const DatabaseError &error) {
        EXPECT_NE(std::string(error.what()).find("read-only"), std::string::npos) << error.what();
    }
}

TEST_F(ReadOnlyMedium, ReadingLeavesNoFilesBehind) {
    EXPECT_EQ(values_in(file_), 1);
    EXPECT_EQ(std::distance(fs::directory_iterator(folder_ / ""), fs::directory_iterator()), 1);
}

TEST(OpenForReading, ChangesNothing) {
    const SampleLibrary library;
    Database reader = open_library(library.file, Access::read);
    EXPECT_THROW(reader.execute("DELETE FROM measurement"), DatabaseError);
}

} // namespace
} // namespace cospot::library
