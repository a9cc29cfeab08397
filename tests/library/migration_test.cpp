#include "library/migration.h"
#include "library/schema_check.h"

#include "library/overview.h"
#include "library/rename.h"
#include "sample_library.h"
#include "shared/error.h"
#include "unprivileged.h"

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <fstream>
#include <iterator>
#include <string>

namespace cospot::library {
namespace {

namespace fs = std::filesystem;

std::int64_t count_of(const Database &database, const std::string &table) {
    Statement query = database.prepare("SELECT count(*) FROM " + table);
    return query.step() ? query.integer(0) : -1;
}

class Upgrade : public testing::TestWithParam<Access> {
protected:
    TemporaryFolder folder_;
    fs::path file_ = folder_ / "old.db";
    fs::path kept_ = folder_ / "old.db.format-1.backup";
};

TEST_P(Upgrade, KeepsTheLibraryAsItWasAndLosesNothing) {
    create_filled_format_1(file_);
    std::vector<std::string> notes;
    Database database =
        open_library(file_, GetParam(), [&](const std::string &note) { notes.push_back(note); });
    EXPECT_EQ(format_of(database), schema_version());
    const auto compound = find_by_name(database, "alpha");
    ASSERT_EQ(compound.size(), 1U);
    EXPECT_EQ(compound.front().tautomer, "");
    EXPECT_EQ(compound.front().formula, "CH4");
    EXPECT_EQ(values_on_system(database, SystemId{1}, Quantity::Rf).size(), 1U);
    ASSERT_EQ(notes.size(), 1U);
    EXPECT_NE(notes.front().find(kept_.string()), std::string::npos);

    const Database kept = open_unchanged(kept_);
    EXPECT_EQ(format_of(kept), 1);
    EXPECT_EQ(count_of(kept, "measurement"), 1);
}

TEST_P(Upgrade, HappensOnce) {
    create_filled_format_1(file_);
    (void)open_library(file_, GetParam());
    int notes = 0;
    (void)open_library(file_, GetParam(), [&](const std::string &) { ++notes; });
    EXPECT_EQ(notes, 0);
    EXPECT_FALSE(fs::exists(folder_ / "old.db.format-1.2.backup"));
}

TEST_P(Upgrade, NeverOverwritesAnOlderBackup) {
    create_filled_format_1(file_);
    create_format_1(kept_);
    (void)open_library(file_, GetParam());
    EXPECT_EQ(count_of(open_unchanged(kept_), "measurement"), 0);
    EXPECT_EQ(count_of(open_unchanged(folder_ / "old.db.format-1.2.backup"), "measurement"), 1);
}

TEST_P(Upgrade, WithoutWritePermissionSaysWhatToDo) {
    create_filled_format_1(file_);
    Database(file_, Access::write).execute("PRAGMA journal_mode = DELETE");
    const ReadOnlyFolder read_only(folder_ / "");
    try {
        (void)open_library(file_, GetParam());
        FAIL() << "upgraded a library in a read-only folder";
    } catch (const InputError &error) {
        EXPECT_NE(error.found().find("format 1"), std::string::npos) << error.what();
        EXPECT_NE(error.expected().find("copy"), std::string::npos) << error.what();
    }
}

INSTANTIATE_TEST_SUITE_P(Access, Upgrade, testing::Values(Access::read, Access::write));

TEST(Migration, KeepsCorrectionsAndAllowsRelativeRetention) {
    const TemporaryFolder folder;
    const fs::path file = folder / "old.db";
    create_filled_format_1(file);
    Database(file, Access::write)
        .execute("INSERT INTO measurement (id, compound_id, system_id, run_id, quantity, value, "
                 "change_id) VALUES (9, 1, 1, 1, 'Rf', 0.35, 1);"
                 "UPDATE measurement SET superseded_by = 9 WHERE id = 1");
    Database database = open_library(file, Access::write);
    EXPECT_EQ(count_of(database, "measurement WHERE id = 1 AND superseded_by = 9"), 1);
    EXPECT_EQ(count_of(database, "pragma_foreign_key_check"), 0);
    EXPECT_EQ(find_system(database, "silica")->reference, "");
    const auto insert = [&](const std::string &quantity) {
        database.execute("INSERT INTO measurement (compound_id, system_id, run_id, quantity, "
                         "value, change_id) VALUES (1, 1, 1, '" +
                         quantity + "', 0.5, 1)");
    };
    EXPECT_NO_THROW(insert("RRT"));
    EXPECT_NO_THROW(insert("r"));
    EXPECT_ANY_THROW(insert("other"));
    EXPECT_ANY_THROW(database.execute("UPDATE measurement SET superseded_by = 77 WHERE id = 9"));
}

TEST(Migration, ALibraryOfTheFormatBeforeCanBeMended) {
    const TemporaryFolder folder;
    const fs::path file = folder / "old.db";
    create_filled_format_1(file);
    {
        Database database(file, Access::write);
        Transaction transaction(database);
        apply_migrations(database, 1, 11);
        transaction.commit();
    }
    Database database = open_library(file, Access::write);
    const Rename wanted{
        .name = "SILICA", .new_name = "plates", .reason = "", .where = {}, .new_where = {}};
    EXPECT_EQ(rename_system(database, wanted).before.name, "silica");
    EXPECT_EQ(find_system(database, "silica")->name, "plates");
    EXPECT_EQ(count_of(database, "change WHERE id = 1 AND command = ''"), 1);
}

TEST(Migration, AFailedMigrationLeavesTheOldFormat) {
    const TemporaryFolder folder;
    const fs::path file = folder / "old.db";
    create_filled_format_1(file);
    // A table that is in the way of the second format's index; opening it would find that first.
    Database(file, Access::write).execute("CREATE TABLE compound_by_tautomer (x)");
    try {
        upgrade_library(file, {});
        FAIL() << "upgraded a library of a mixed format";
    } catch (const DatabaseError &error) {
        const std::string message = error.what();
        EXPECT_NE(message.find("old.db: the library is damaged or of a mixed format"),
                  std::string::npos)
            << message;
        EXPECT_NE(message.find("restore a backup"), std::string::npos) << message;
    }
    EXPECT_FALSE(fs::exists(folder / "old.db.format-1.backup"));
    const Database still(file, Access::read);
    EXPECT_EQ(format_of(still), 1);
    EXPECT_EQ(count_of(still, "pragma_table_info('compound') WHERE name = 'tautomer'"), 0);
}

TEST(Migration, TheCompleteSchemaFileEqualsAllMigrations) {
    const TemporaryFolder folder;
    create_library(folder / "new.db");
    std::ifstream kept(COSPOT_COMPLETE_SCHEMA);
    EXPECT_EQ(schema_text(Database(folder / "new.db", Access::read)),
              std::string(std::istreambuf_iterator<char>(kept), {}))
        << "after a new migration the first text belongs into " COSPOT_COMPLETE_SCHEMA;
}

TEST(Migration, ForeignTablesViewsAndTriggersAreRefused) {
    for (const char *foreign :
         {"CREATE TRIGGER takes_all AFTER INSERT ON change BEGIN DELETE FROM measurement; END",
          "CREATE TABLE more (x)", "DROP TRIGGER fit_of_new_value",
          "DROP TABLE column_band; CREATE VIEW column_band AS WITH RECURSIVE n(x) AS (SELECT 1 "
          "UNION "
          "ALL SELECT x + 1 FROM n) SELECT x FROM n"}) {
        const TemporaryFolder folder;
        const fs::path file = folder / "foreign.db";
        create_library(file);
        Database(file, Access::write).execute(foreign);
        EXPECT_THROW((void)open_library(file, Access::read), InputError) << foreign;
        EXPECT_THROW((void)open_library(file, Access::write), InputError) << foreign;
    }
    const TemporaryFolder folder;
    create_library(folder / "own.db");
    Database(folder / "own.db", Access::write).execute("ANALYZE; VACUUM");
    EXPECT_NO_THROW((void)open_library(folder / "own.db", Access::read));
}

TEST(Migration, UpgradedAndNewLibrariesHaveTheSameTables) {
    const TemporaryFolder folder;
    create_format_1(folder / "old.db");
    create_library(folder / "new.db");
    const auto columns = [](const Database &database) {
        Statement query =
            database.prepare("SELECT group_concat(t.name || '.' || c.name || ' ' || c.type, ', ') "
                             "FROM pragma_table_list AS t JOIN pragma_table_info(t.name) AS c "
                             "WHERE t.schema = 'main' ORDER BY t.name, c.cid");
        return query.step() ? query.text(0) : "";
    };
    EXPECT_EQ(columns(open_library(folder / "old.db", Access::write)),
              columns(open_library(folder / "new.db", Access::write)));
}

TEST(Migration, TheFormatIsThatBeforeAnUpgradeThatWasCutOff) {
    const TemporaryFolder folder;
    create_library(folder / "whole.db");
    copy_cut_off(folder / "whole.db", "PRAGMA user_version = 999", folder / "copy.db");
    EXPECT_EQ(format_of(open_library(folder / "copy.db", Access::write)), schema_version());
}

TEST(Migration, TautomerIsStoredAndFilledInOnce) {
    SampleLibrary library;
    Compound compound = invented_compound('A', "alpha");
    compound.tautomer = "hash";
    Transaction transaction(library.database);
    const auto change = begin_change(library.database, "test", "");
    const auto known = add_compound(library.database, compound, change);
    const auto unknown = add_compound(library.database, invented_compound('B', "beta"), change);
    set_tautomer(library.database, known, "other");
    set_tautomer(library.database, unknown, "later");
    EXPECT_EQ(find_compound(library.database, known)->tautomer, "hash");
    EXPECT_EQ(find_compound(library.database, unknown)->tautomer, "later");
    transaction.commit();
}

} // namespace
} // namespace cospot::library
