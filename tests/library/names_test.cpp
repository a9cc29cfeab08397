#include "library/names.h"

#include "library/near_names.h"
#include "sample_library.h"

#include <gtest/gtest.h>

#include <functional>

namespace cospot::library {
namespace {

/// The message of what is refused.
std::string refusal(const std::function<void()> &call) {
    try {
        call();
    } catch (const InputError &error) {
        return error.what();
    }
    return "nothing was refused";
}

class Names : public testing::Test {
protected:
    SampleLibrary library_;
    Database &database_ = library_.database;
    const Where where_{"u.csv", 3, "compound"};
};

TEST_F(Names, ANameOfTwoStructuresIsRefusedWithBoth) {
    library_.compound('A', "carvone");
    library_.compound('B', "Carvone");
    const std::string said =
        refusal([&] { (void)compound_if_named(database_, "carvone", where_); });
    EXPECT_NE(said.find("u.csv:3"), std::string::npos) << said;
    for (const char letter : {'A', 'B'}) {
        EXPECT_NE(said.find(invented_compound(letter, "").inchikey), std::string::npos) << said;
    }
    EXPECT_NE(said.find("(C, "), std::string::npos) << said; // the SMILES
    EXPECT_NE(said.find("InChIKey"), std::string::npos) << said;
}

TEST_F(Names, TheInChIKeyNamesOneEvenWhereAnotherIsCalledSo) {
    library_.compound('A', "carvone");
    library_.compound('B', invented_compound('A', "").inchikey);
    EXPECT_EQ(compound_named(database_, invented_compound('A', "").inchikey, where_).name,
              "carvone");
}

TEST_F(Names, NearNamesAreProposedTheNearestFirst) {
    library_.compound('A', "eugenol");
    library_.compound('B', "methyleugenol");
    library_.compound('C', "anisole");
    EXPECT_EQ(did_you_mean(database_, "Eugenl", NameOf::compound), "; did you mean \"eugenol\"?");
    EXPECT_EQ(did_you_mean(database_, "eugenool", NameOf::compound), "; did you mean \"eugenol\"?");
    EXPECT_EQ(did_you_mean(database_, "EUGENO", NameOf::compound),
              "; did you mean \"eugenol\" or \"methyleugenol\"?");
    for (const char *far : {"vanillin", "eug", "", "x"}) {
        EXPECT_EQ(did_you_mean(database_, far, NameOf::compound), "") << far;
    }
    EXPECT_EQ(did_you_mean(database_, "anisol", NameOf::system), "");
    EXPECT_EQ(did_you_mean(database_, "anisol", NameOf::any), "; did you mean \"anisole\"?");
}

TEST_F(Names, ASystemIsFoundWhateverTheCaseAndAnExactNameWins) {
    const auto lower = library_.system("silica", "hexane");
    EXPECT_EQ(find_system(database_, "SILICA")->id, lower);
    EXPECT_EQ(system_named(database_, "Silica", where_).name, "silica");
    const auto upper = library_.system("Silica", "toluene"); // as older programs let it in
    EXPECT_EQ(find_system(database_, "silica")->id, lower);
    EXPECT_EQ(find_system(database_, "Silica")->id, upper);
    const std::string said = refusal([&] { (void)find_system(database_, "SILICA"); });
    EXPECT_NE(said.find("\"Silica\" and \"silica\""), std::string::npos) << said;
    EXPECT_FALSE(find_system(database_, "alumina"));
    EXPECT_NE(refusal([&] {
                  (void)system_named(database_, "silca", where_);
              }).find("did you mean \"Silica\" or \"silica\"?"),
              std::string::npos);
}

} // namespace
} // namespace cospot::library
