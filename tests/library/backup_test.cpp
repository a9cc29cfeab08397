#include "library/backup.h"

#include "sample_library.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

namespace cospot::library {
namespace {

namespace fs = std::filesystem;

class Backup : public testing::Test {
protected:
    Backup() {
        const auto compound = library_.compound('A', "alpha");
        const auto system = library_.system("silica", "hexane");
        for (int i = 0; i < 20; ++i) {
            library_.value(compound, system, 0.001 * i);
        }
    }

    [[nodiscard]] std::ptrdiff_t files() const {
        return std::distance(fs::directory_iterator(folder_ / ""), fs::directory_iterator());
    }

    SampleLibrary library_;
    TemporaryFolder folder_;
};

TEST_F(Backup, IsALibraryWithTheSameContent) {
    library_.database.execute("UPDATE measurement SET superseded_by = 1 WHERE id = 2");
    const BackupSummary summary = back_up(library_.database, folder_ / "copy.db");
    EXPECT_EQ(summary.values, 19);
    EXPECT_EQ(summary.withdrawn, 1);
    EXPECT_EQ(summary.compounds, 1);
    EXPECT_EQ(summary.systems, 1);
    EXPECT_EQ(summary.bytes, fs::file_size(folder_ / "copy.db"));
    Database copy = open_library(folder_ / "copy.db", Access::write);
    EXPECT_EQ(values_on_system(copy, SystemId{1}, Quantity::Rf).size(), 19U);
    EXPECT_EQ(fs::status(folder_ / "copy.db").permissions(),
              fs::status(library_.file).permissions());
}

TEST_F(Backup, HoldsWhatIsCommittedAndNothingOfAnOpenChange) {
    Database other = open_library(library_.file, Access::read);
    Transaction transaction(library_.database);
    library_.database.execute("DELETE FROM measurement WHERE id > 10");
    EXPECT_EQ(back_up(other, folder_ / "before.db").values, 20);
    transaction.commit();
    EXPECT_EQ(back_up(other, folder_ / "after.db").values, 10);
}

TEST_F(Backup, NeverOverwrites) {
    std::ofstream(folder_ / "precious.txt") << "notes";
    EXPECT_THROW(back_up(library_.database, folder_ / "precious.txt"), InputError);
    fs::create_symlink("nowhere", folder_ / "link");
    EXPECT_THROW(back_up(library_.database, folder_ / "link"), InputError);
    EXPECT_EQ(fs::file_size(folder_ / "precious.txt"), 5U);
    EXPECT_EQ(files(), 2);
}

TEST_F(Backup, MissingFolderIsAnInputError) {
    EXPECT_THROW(back_up(library_.database, folder_ / "none" / "copy.db"), InputError);
}

TEST_F(Backup, OfADamagedLibraryFailsAndLeavesNothing) {
    const fs::path damaged = folder_ / "damaged.db";
    fs::copy(library_.file, damaged);
    {
        // Rows that refer to a compound that is not there.
        Database database(damaged, Access::write);
        database.execute("PRAGMA foreign_keys = OFF; DELETE FROM compound");
    }
    EXPECT_THROW(back_up(open_unchanged(damaged), folder_ / "copy.db"), DatabaseError);
    EXPECT_EQ(files(), 1);

    std::fstream bytes(damaged, std::ios::in | std::ios::out | std::ios::binary);
    bytes.seekp(-4096, std::ios::end);
    bytes << std::string(4096, 'x');
    bytes.close();
    EXPECT_THROW(back_up(open_unchanged(damaged), folder_ / "copy.db"), DatabaseError);
    EXPECT_EQ(files(), 1);
}

} // namespace
} // namespace cospot::library
