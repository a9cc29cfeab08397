// Who may read what cospot writes: never more people than the umask allows.
#include "library_state.h"
#include "program_fixture.h"

#include "../../library/sample_library.h"
#include "library/partial_file.h"

#include <sys/stat.h>

namespace cospot {
namespace {

namespace fs = std::filesystem;

class Umask {
public:
    explicit Umask(mode_t mask) : before_(umask(mask)) {}
    ~Umask() { umask(before_); }
    Umask(const Umask &) = delete;
    Umask &operator=(const Umask &) = delete;

private:
    mode_t before_;
};

unsigned permissions_of(const fs::path &file) {
    return static_cast<unsigned>(fs::status(file).permissions());
}

/// A umask, and the permissions of new files under it.
struct Rule {
    mode_t mask;
    unsigned permissions;
};

class PermissionsTest : public testing::TestWithParam<Rule> {
protected:
    Outcome cospot(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"--library", library_.string()});
        std::istringstream in;
        std::ostringstream out;
        std::ostringstream err;
        const int code = run_command_line(arguments, in, out, err);
        return {code, out.str(), err.str()};
    }

    [[nodiscard]] std::string path(const std::string &name) const {
        return (folder_ / name).string();
    }

    library::TemporaryFolder folder_;
    const fs::path library_ = folder_ / "library.db";
    const Umask umask_{GetParam().mask};
};

TEST_P(PermissionsTest, OfEveryNewFileFollowTheUmask) {
    std::ofstream(path("v.csv")) << "compound,smiles,system,quantity,value\nethanol,CCO,s,Rf,0.3\n"
                                    "ethanol,CCO,s,Rf,much\n";
    ASSERT_EQ(cospot({"init"}).code, kDone);
    ASSERT_EQ(cospot({"learn", "--create-systems", "--partial", path("v.csv")}).code,
              kNeedsAttention);
    ASSERT_EQ(cospot({"backup", path("copy.db")}).code, kDone);
    ASSERT_EQ(cospot({"export", "values", "--output", path("out.csv")}).code, kDone);
    for (const char *name : {"a.html", "a.csv", "a.json"}) {
        ASSERT_NE(cospot({"audit", "--report", path(name)}).code, kBadInput);
    }
    library::create_filled_format_1(path("old.db"));
    ASSERT_EQ(cospot({"--library", path("old.db"), "list"}).code, kDone);
    for (const char *name : {"library.db", "copy.db", "out.csv", "a.html", "a.csv", "a.json",
                             "v.csv.refused.csv", "old.db.format-1.backup"}) {
        EXPECT_EQ(permissions_of(path(name)) & ~GetParam().permissions, 0U) << name;
        EXPECT_EQ(permissions_of(path(name)) & 0600U, 0600U) << name;
    }
    EXPECT_EQ(permissions_of(library_), GetParam().permissions);
    EXPECT_EQ(permissions_of(path("copy.db")), GetParam().permissions);
    EXPECT_EQ(permissions_of(path("a.html")), GetParam().permissions);
}

TEST_P(PermissionsTest, OfTheJournalAreThoseOfTheLibrary) {
    ASSERT_EQ(cospot({"init"}).code, kDone);
    library::Database database = library::open_library(library_, library::Access::write);
    library::Transaction transaction(database);
    (void)library::begin_change(database, "test", "");
    EXPECT_EQ(permissions_of(library_.string() + "-journal"), GetParam().permissions);
}

TEST_P(PermissionsTest, OfAnUnfinishedFileAreThoseOfTheFinishedOne) {
    const library::PartialFile partial(folder_ / "new");
    EXPECT_EQ(permissions_of(partial.name()), GetParam().permissions);
}

TEST_P(PermissionsTest, OfABackupAreNeverWiderThanThoseOfTheLibrary) {
    ASSERT_EQ(cospot({"init"}).code, kDone);
    for (const mode_t own : {0600U, 0640U, 0660U, 0400U}) {
        chmod(library_.c_str(), own);
        ASSERT_EQ(cospot({"backup", path("copy.db")}).code, kDone);
        EXPECT_EQ(permissions_of(path("copy.db")), (own & GetParam().permissions) | 0600U);
        fs::remove(path("copy.db"));
    }
}

INSTANTIATE_TEST_SUITE_P(Umasks, PermissionsTest,
                         testing::Values(Rule{0077, 0600}, Rule{0027, 0640}, Rule{0022, 0644},
                                         Rule{0002, 0664}));

} // namespace
} // namespace cospot
