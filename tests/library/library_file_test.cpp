#include "library/library_file.h"
#include "library/partial_file.h"

#include "shared/error.h"
#include "temporary_library.h"

#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <iterator>

namespace cospot::library {
namespace {

std::string bytes_of(const std::filesystem::path &file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

void expect_refused_untouched(const std::filesystem::path &file) {
    const std::string before = bytes_of(file);
    EXPECT_THROW((void)open_library(file, Access::write), InputError);
    EXPECT_EQ(bytes_of(file), before);
}

TEST(LibraryFile, IsMarkedAsALibraryOfThisFormat) {
    const TemporaryLibrary library;
    const Database database = library.open();
    Statement mark = database.prepare("SELECT (SELECT application_id FROM pragma_application_id), "
                                      "(SELECT user_version FROM pragma_user_version), "
                                      "(SELECT journal_mode FROM pragma_journal_mode)");
    ASSERT_TRUE(mark.step());
    EXPECT_EQ(mark.integer(0), kApplicationId);
    EXPECT_EQ(mark.integer(1), schema_version());
    EXPECT_EQ(mark.text(2), "delete");
}

TEST(LibraryFile, AllTablesAreStrict) {
    const TemporaryLibrary library;
    const Database database = library.open();
    Statement loose = database.prepare(
        "SELECT count(*) FROM pragma_table_list WHERE type = 'table' AND strict = 0 "
        "AND name NOT LIKE 'sqlite_%'");
    ASSERT_TRUE(loose.step());
    EXPECT_EQ(loose.integer(0), 0);
}

TEST(LibraryFile, IsNeverOverwritten) {
    const TemporaryLibrary library;
    const std::string before = bytes_of(library.file);
    EXPECT_THROW(create_library(library.file), InputError);
    EXPECT_EQ(bytes_of(library.file), before);
}

TEST(LibraryFile, MissingFileIsNotCreated) {
    const TemporaryFolder folder;
    EXPECT_THROW((void)open_library(folder / "none.db", Access::write), InputError);
    EXPECT_FALSE(std::filesystem::exists(folder / "none.db"));
}

TEST(LibraryFile, MissingFolderIsAnInputError) {
    const TemporaryFolder folder;
    EXPECT_THROW(create_library(folder / "none" / "library.db"), InputError);
}

TEST(LibraryFile, RefusesTextEmptyFileAndFolder) {
    const TemporaryFolder folder;
    std::ofstream(folder / "text.db") << "compound,smiles\n";
    expect_refused_untouched(folder / "text.db");
    std::ofstream(folder / "empty.db") << "";
    expect_refused_untouched(folder / "empty.db");
    std::filesystem::create_directory(folder / "folder.db");
    EXPECT_THROW((void)open_library(folder / "folder.db", Access::read), InputError);
}

TEST(LibraryFile, RefusesADatabaseOfAnotherProgram) {
    const TemporaryFolder folder;
    Database(folder / "other.db", Access::create).execute("CREATE TABLE t (x)");
    expect_refused_untouched(folder / "other.db");
}

TEST(LibraryFile, RefusesALibraryOfANewerProgram) {
    const TemporaryLibrary library;
    library.open().execute("PRAGMA user_version = 999");
    expect_refused_untouched(library.file);
}

TEST(LibraryFile, PathMayHoldBlanksAndOtherAlphabets) {
    const TemporaryFolder folder;
    const std::filesystem::path file = folder / "наша библиотека β.db";
    create_library(file);
    EXPECT_NO_THROW((void)open_library(file, Access::write));
}

} // namespace
TEST(PartialFile, IsRemovedByTheNextOneWhereItsProcessWasKilled) {
    const TemporaryFolder folder;
    const pid_t killed = fork();
    if (killed == 0) {
        const PartialFile left(folder / "report.html");
        _exit(0); // without its destructor, as SIGKILL does it
    }
    ASSERT_EQ(waitpid(killed, nullptr, 0), killed);
    const auto count = [&] {
        return std::distance(std::filesystem::directory_iterator(folder / ""),
                             std::filesystem::directory_iterator());
    };
    EXPECT_EQ(count(), 1);
    const PartialFile living(folder / "report.html");
    EXPECT_EQ(count(), 1); // the dead one is gone
    const PartialFile second(folder / "other.html");
    EXPECT_EQ(count(), 2); // the living one stays
}

} // namespace cospot::library
