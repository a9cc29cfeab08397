#include "quantities/index_scale.h"

#include <gtest/gtest.h>

#include <map>
#include <string>

namespace cospot::quantities {
namespace {

using enum IndexScale;

constexpr IndexScale kAllScales[] = {n_alkane, fatty_acid_methyl_ester, alkyl_aryl_ketone,
                                     nitroalkane_1, ketoalkane_2};

void expect_member(const std::string &name, IndexScale scale, int carbon) {
    const auto homologue = homologue_from_name(name);
    ASSERT_TRUE(homologue.has_value()) << name;
    EXPECT_EQ(homologue->scale, scale) << name << " is " << to_text(homologue->scale);
    EXPECT_EQ(homologue->carbon, carbon) << name;
}

TEST(IndexScale, ReadsItsOwnNamesBack) {
    for (const IndexScale scale : kAllScales) {
        EXPECT_EQ(index_scale_from_text(to_text(scale)), scale) << to_text(scale);
    }
    EXPECT_EQ(to_text(n_alkane), "n-alkane");
    EXPECT_EQ(to_text(ketoalkane_2), "2-ketoalkane");
}

TEST(IndexScale, ReadsTheWaysPeopleWriteIt) {
    const std::map<std::string, IndexScale> texts = {
        {"N-Alkanes", n_alkane},
        {"alkane", n_alkane},
        {"Kovats", n_alkane},
        {"Kov\xC3\xA1ts retention index", n_alkane},
        {"Kovats, n-alkanes, isothermal", n_alkane},
        {"linear (n-alkanes C7-C30)", n_alkane},
        {"temperature-programmed n_alkane retention index", n_alkane},
        {"van den Dool and Kratz, n-alkanes", n_alkane},
        {"n-paraffins", n_alkane},
        {"FAME", fatty_acid_methyl_ester},
        {"FAMEs", fatty_acid_methyl_ester},
        {"C8-C30 FAMEs, linear", fatty_acid_methyl_ester},
        {"fatty-acid methyl esters (FAME)", fatty_acid_methyl_ester},
        {"alkyl aryl ketones", alkyl_aryl_ketone},
        {"Alkyl-aryl-ketone index", alkyl_aryl_ketone},
        {"alkylphenones", alkyl_aryl_ketone},
        {"1-nitroalkanes", nitroalkane_1},
        {"nitroalkane", nitroalkane_1},
        {"2-Ketoalkanes", ketoalkane_2},
        {"alkan-2-ones", ketoalkane_2}};
    for (const auto &[text, scale] : texts) {
        EXPECT_EQ(index_scale_from_text(text), scale) << text;
    }
}

TEST(IndexScale, ReadsNoScaleFromAnythingElse) {
    for (const std::string text : {"", "linear", "RI", "alkane or FAME", "alkane FAME", "ester",
                                   "2-nitroalkane", "ketone", "C7-C30", "polyglycol"}) {
        EXPECT_FALSE(index_scale_from_text(text).has_value()) << text;
    }
}

// iupac1979, rule from memory; the names themselves read in pubchem.
TEST(Homologue, ReadsEveryAlkaneFromMethaneToTetracontane) {
    const std::vector<std::string> names = {
        "methane",          "ethane",           "propane",          "butane",
        "pentane",          "hexane",           "heptane",          "octane",
        "nonane",           "decane",           "undecane",         "dodecane",
        "tridecane",        "tetradecane",      "pentadecane",      "hexadecane",
        "heptadecane",      "octadecane",       "nonadecane",       "icosane",
        "henicosane",       "docosane",         "tricosane",        "tetracosane",
        "pentacosane",      "hexacosane",       "heptacosane",      "octacosane",
        "nonacosane",       "triacontane",      "hentriacontane",   "dotriacontane",
        "tritriacontane",   "tetratriacontane", "pentatriacontane", "hexatriacontane",
        "heptatriacontane", "octatriacontane",  "nonatriacontane",  "tetracontane"};
    ASSERT_EQ(names.size(), 40U);
    for (std::size_t i = 0; i < names.size(); ++i) {
        expect_member(names[i], n_alkane, static_cast<int>(i) + 1);
        expect_member("n-" + names[i], n_alkane, static_cast<int>(i) + 1);
        expect_member("C" + std::to_string(i + 1), n_alkane, static_cast<int>(i) + 1);
    }
    expect_member("eicosane", n_alkane, 20);
    expect_member("heneicosane", n_alkane, 21);
    expect_member("tetratetracontane", n_alkane, 44);
    expect_member("hexacontane", n_alkane, 60);
}

TEST(Homologue, ReadsSpellingsOfOneAlkane) {
    for (const std::string name : {"decane", "Decane", " n-decane ", "N-Decane", "n decane", "C10",
                                   "c10", "n-C10", "nC10", "C-10", "C10 alkane"}) {
        expect_member(name, n_alkane, 10);
    }
    expect_member("n-nonane", n_alkane, 9);
    expect_member("nonane", n_alkane, 9);
}

// Trivial acid names: to C20 read in pubchem, but for the enanthate and the margarate; those two,
// the names beyond C20 and the systematic ones (iupac1979, rule C-404) from memory.
TEST(Homologue, CountsTheAcidOfAMethylEster) {
    const std::map<std::string, int> esters = {
        {"methyl acetate", 2},        {"methyl butyrate", 4},     {"methyl caproate", 6},
        {"methyl hexanoate", 6},      {"methyl enanthate", 7},    {"methyl caprylate", 8},
        {"methyl octanoate", 8},      {"methyl pelargonate", 9},  {"methyl caprate", 10},
        {"methyl decanoate", 10},     {"methyl undecanoate", 11}, {"methyl laurate", 12},
        {"methyl dodecanoate", 12},   {"methyl myristate", 14},   {"methyl palmitate", 16},
        {"methyl margarate", 17},     {"methyl stearate", 18},    {"methyl octadecanoate", 18},
        {"methyl arachidate", 20},    {"methyl eicosanoate", 20}, {"methyl icosanoate", 20},
        {"methyl behenate", 22},      {"methyl lignocerate", 24}, {"methyl tetracosanoate", 24},
        {"methyl cerotate", 26},      {"methyl montanate", 28},   {"methyl melissate", 30},
        {"methyl triacontanoate", 30}};
    for (const auto &[name, carbon] : esters) {
        expect_member(name, fatty_acid_methyl_ester, carbon);
    }
}

TEST(Homologue, ReadsSpellingsOfOneMethylEster) {
    for (const std::string name :
         {"Methyl octanoate", "methyl n-octanoate", "methyl-caprylate", "C8 FAME", "C8-FAME",
          "FAME C8", "C8:0 FAME", "C8 methyl ester", "octanoic acid, methyl ester",
          "Octanoic acid methyl ester", "caprylic acid methyl ester"}) {
        expect_member(name, fatty_acid_methyl_ester, 8);
    }
}

// smith1982, from memory: all carbon atoms count, acetophenone is 8.
TEST(Homologue, CountsAllCarbonAtomsOfAnAlkylArylKetone) {
    const std::vector<std::string> names = {"acetophenone",  "propiophenone", "butyrophenone",
                                            "valerophenone", "hexanophenone", "heptanophenone",
                                            "octanophenone", "nonanophenone", "decanophenone"};
    for (std::size_t i = 0; i < names.size(); ++i) {
        expect_member(names[i], alkyl_aryl_ketone, static_cast<int>(i) + 8);
    }
    expect_member("propanophenone", alkyl_aryl_ketone, 9);
    expect_member("1-phenylethanone", alkyl_aryl_ketone, 8);
    expect_member("1-phenyl-1-propanone", alkyl_aryl_ketone, 9);
    expect_member("1-phenylpentan-1-one", alkyl_aryl_ketone, 11);
    expect_member("dodecanophenone", alkyl_aryl_ketone, 18);
    expect_member("laurophenone", alkyl_aryl_ketone, 18);
}

// bogusz1988 and baker1979, from memory.
TEST(Homologue, ReadsNitroalkanesAndKetoalkanes) {
    expect_member("nitromethane", nitroalkane_1, 1);
    expect_member("nitroethane", nitroalkane_1, 2);
    expect_member("1-nitropropane", nitroalkane_1, 3);
    expect_member("1-Nitrohexane", nitroalkane_1, 6);
    expect_member("acetone", ketoalkane_2, 3);
    expect_member("propanone", ketoalkane_2, 3);
    expect_member("2-propanone", ketoalkane_2, 3);
    expect_member("2-butanone", ketoalkane_2, 4);
    expect_member("butanone", ketoalkane_2, 4);
    expect_member("butan-2-one", ketoalkane_2, 4);
    expect_member("2-pentanone", ketoalkane_2, 5);
    expect_member("2-undecanone", ketoalkane_2, 11);
    expect_member("tridecan-2-one", ketoalkane_2, 13);
}

TEST(Homologue, RefusesIsomersAndWhatIsNoMember) {
    for (const std::string name : {"",
                                   "isobutane",
                                   "2-methylhexane",
                                   "cyclohexane",
                                   "nitropropane",
                                   "2-nitropropane",
                                   "pentanone",
                                   "3-pentanone",
                                   "pentan-3-one",
                                   "benzophenone",
                                   "phenone",
                                   "ethyl octanoate",
                                   "methyl oleate",
                                   "C18:1 FAME",
                                   "C18:1",
                                   "C16:0",
                                   "methyl isovalerate",
                                   "decanol",
                                   "1-decene",
                                   "C",
                                   "C0",
                                   "C010",
                                   "C10.5",
                                   "C7-C10",
                                   "ane",
                                   "ethanone",
                                   "hexadec",
                                   "methyl",
                                   "n-",
                                   "C999",
                                   "1-phenyl-2-propanone"}) {
        const auto homologue = homologue_from_name(name);
        EXPECT_FALSE(homologue.has_value())
            << name << " read as " << to_text(homologue->scale) << " " << homologue->carbon;
    }
}

} // namespace
} // namespace cospot::quantities
