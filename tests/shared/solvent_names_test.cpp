#include "shared/solvent_names.h"

#include <gtest/gtest.h>

#include <string_view>
#include <vector>

namespace cospot {
namespace {

// Names and abbreviations of laboratories in English and German: common practice, no source.
TEST(SolventNames, AreKnownAsLaboratoriesWriteThem) {
    struct Called {
        std::string_view name;
        std::vector<std::string_view> others;
    };
    for (const Called &one :
         {Called{"petroleum ether",
                 {"PE", "Petrolether", "pet. ether", "PE 40/60", "PE (40-60)",
                  "petroleum ether 60-80 °C"}},
          {"ethyl acetate", {"EE", "EtOAc", "EA", "AcOEt", "Ethylacetat", "Essigester"}},
          {"hexane", {"Hex", "n-Hexan", "hexanes", "Hexan"}},
          {"cyclohexane", {"Cy", "Cyclohexan", "cyclohexane"}},
          {"dichloromethane", {"DCM", "CH2Cl2", "CH\u2082Cl\u2082", "Dichlormethan"}},
          {"methanol", {"MeOH", "Methanol"}},
          {"triethylamine", {"Et3N", "NEt3", "TEA"}},
          {"toluene", {"Toluol", "PhMe"}},
          {"diethyl ether", {"Et2O", "Diethylether", "Äther"}},
          {"acetic acid", {"AcOH", "Eisessig"}}}) {
        for (const std::string_view other : one.others) {
            EXPECT_EQ(known_solvent(other), one.name) << other;
        }
    }
}

TEST(SolventNames, WhatIsNoneIsOnlyLikeItself) {
    EXPECT_EQ(known_solvent("helium"), "");
    EXPECT_EQ(known_solvent(""), "");
    EXPECT_EQ(known_solvent("EE 40/60"), ""); // a boiling range is of petroleum ether
    EXPECT_EQ(known_solvent("PE 60/40"), "");
    EXPECT_EQ(solvent_key(" Helium "), "helium");
}

} // namespace
} // namespace cospot
