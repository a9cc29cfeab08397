// identify with what was seen beside retention: the lamp, stains, molar mass and formula.
#include "program_fixture.h"

#include "evidence/compound_traits.h"
#include "library/compounds.h"
#include "library/library_file.h"
#include "quantities/stains.h"
#include "structures/structure_service.h"

#include <algorithm>
#include <cmath>

namespace cospot {
namespace {

/// Compounds with about the same invented R_F on silica gel, and some that lie elsewhere.
class FurtherEvidenceTest : public ProgramTest {
protected:
    FurtherEvidenceTest() {
        std::string values = "compound,smiles,system,quantity,value,run\n";
        const auto add = [&](const std::string &compound, double value) {
            for (int run = 0; run < 3; ++run) {
                values += compound + ",silica,Rf," + std::to_string(value + 0.01 * (run - 1)) +
                          ",r" + std::to_string(run) + "\n";
            }
        };
        add("vanillin,COc1cc(C=O)ccc1O", 0.40);
        add("menthol,CC1CCC(C(C)C)C(O)C1", 0.40);
        add("benzylamine,NCc1ccccc1", 0.40);
        add("benzoic acid,OC(=O)c1ccccc1", 0.40);
        add("procaine hydrochloride,Cl.CCN(CC)CCOC(=O)c1ccc(N)cc1", 0.40);
        add("naphthalene,c1ccc2ccccc2c1", 0.80);
        add("camphor,CC1(C)C2CCC1(C)C(=O)C2", 0.60);
        add("glucose,OCC1OC(O)C(O)C(O)C1O", 0.05);
        const Outcome learned = cospot(
            {"learn", "--systems",
             file("systems.csv", "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                                 "silica,tlc,silica gel F254,hexane:ethyl acetate 3:1,,\n"),
             file("values.csv", values)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    /// What identify says of R_F 0.40 with one more column or several.
    nlohmann::json at_040(const std::string &columns, const std::string &values) const {
        const Outcome outcome =
            cospot({"--json", "identify",
                    file("u.csv", "sample,feature,system,quantity,value," + columns +
                                      "\nflask,1,silica,Rf,0.40," + values + "\n")});
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome.lines().at(0);
    }

    void expect_refused(const std::string &table, const std::string &message) const {
        const Outcome outcome = cospot({"identify", file("bad.csv", table)});
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_NE(outcome.err.find(message), std::string::npos) << outcome.err;
    }

    library::Database database() const {
        return library::open_library(folder_ / "library.db", library::Access::write);
    }
};

nlohmann::json candidate_of(const nlohmann::json &feature, const std::string &name) {
    for (const auto &candidate : feature["candidates"]) {
        if (candidate["compound"] == name) {
            return candidate;
        }
    }
    ADD_FAILURE() << name << " is no candidate in " << feature.dump();
    return {{"probability", 0.0}, {"further", 0.0}};
}

double probability_of(const nlohmann::json &feature, const std::string &name) {
    return candidate_of(feature, name)["probability"];
}

double sum_of_probabilities(const nlohmann::json &feature) {
    double sum = feature["unlisted"].get<double>() + feature["other"].get<double>();
    for (const auto &candidate : feature["candidates"]) {
        sum += candidate["probability"].get<double>();
    }
    return sum;
}

/// Odds between two candidates.
double odds(const nlohmann::json &feature, const std::string &a, const std::string &b) {
    return probability_of(feature, a) / probability_of(feature, b);
}

TEST_F(FurtherEvidenceTest, EachKindMovesTheOddsByItsLikelihoodRatio) {
    // Expected ratios by hand from the assumptions stated in stains.tsv.
    const auto plain = at_040("area", "1");
    EXPECT_TRUE(plain["evidence"].empty());
    EXPECT_FALSE(plain["candidates"][0].contains("further"));
    const auto moved = [&](const std::string &columns, const std::string &values,
                           const std::string &a, const std::string &b) {
        const auto with = at_040(columns, values);
        EXPECT_NEAR(sum_of_probabilities(with), 1.0, 1e-9);
        return odds(with, a, b) / odds(plain, a, b);
    };
    EXPECT_NEAR(moved("uv254", "yes", "vanillin", "menthol"), 0.95 / 0.05, 1e-6);
    EXPECT_NEAR(moved("uv254", "no", "vanillin", "menthol"), 0.05 / 0.95, 1e-6);
    EXPECT_NEAR(moved("stain,stained", "ninhydrin,yes", "benzylamine", "vanillin"), 0.9 / 0.05,
                1e-6);
    EXPECT_NEAR(moved("stain,stained", "DNPH,Yes", "vanillin", "benzoic acid"), 0.9 / 0.05, 1e-6);
    EXPECT_NEAR(moved("stain,stained", "H2SO4,yes", "vanillin", "menthol"), 1.0, 1e-6);
    const auto formula = at_040("formula", "C8H8O3");
    EXPECT_GT(probability_of(formula, "vanillin"), 0.75);
    EXPECT_LT(probability_of(formula, "menthol"), 0.01);
    EXPECT_NEAR(candidate_of(formula, "menthol")["further"], std::log(0.01), 1e-9);
}

TEST_F(FurtherEvidenceTest, OutputSaysWhatWasSeenAndWhatItDid) {
    const std::string table =
        file("u.csv", "sample,feature,system,quantity,value,uv254,stain,stained,molar_mass\n"
                      "flask,1,silica,Rf,0.40,no,KMnO4,yes,156\n");
    const auto feature = cospot({"--json", "identify", table}).lines().at(0);
    ASSERT_EQ(feature["evidence"].size(), 3U);
    EXPECT_EQ(feature["evidence"][0], (nlohmann::json{{"kind", "uv254"}, {"value", false}}));
    EXPECT_EQ(feature["evidence"][1]["stain"], "potassium permanganate");
    EXPECT_EQ(feature["evidence"][1]["value"], true);
    EXPECT_EQ(feature["evidence"][2]["value"], 156.0);
    EXPECT_EQ(feature["evidence"][2]["uncertainty"], 0.5);
    EXPECT_EQ(feature["candidates"][0]["compound"], "menthol");
    EXPECT_GT(feature["candidates"][0]["further"], 0.0);
    const std::string text = cospot({"identify", table}).out;
    EXPECT_NE(text.find("not dark at 254 nm, stained by potassium permanganate"), std::string::npos)
        << text;
    EXPECT_NE(text.find("further evidence raised its odds against unlisted "), std::string::npos);
    EXPECT_NE(text.find("Retention alone is no proof"), std::string::npos);
}

TEST_F(FurtherEvidenceTest, AStainSeparatesCompoundsOfEqualRf) {
    // All five at R_F 0.40 are one group by retention.
    EXPECT_EQ(at_040("area", "1")["groups"][0]["compounds"].size(), 5U);
    const auto feature = at_040("stain,stained", "bromocresol green,yes");
    EXPECT_EQ(feature["candidates"][0]["compound"], "benzoic acid");
    for (const auto &group : feature["groups"]) {
        EXPECT_EQ(group.dump().find("benzoic acid"), std::string::npos);
    }
}

TEST_F(FurtherEvidenceTest, SeveralStainsStandInRowsOfTheirOwn) {
    const auto feature =
        cospot({"--json", "identify",
                file("u.csv", "sample,feature,system,quantity,value,uv254,stain,stained\n"
                              "flask,1,silica,Rf,0.40,yes,,\n"
                              "flask,1,,,,,ninhydrin,no\n"
                              "flask,1,,,,yes,ferric chloride,yes\n")})
            .lines()
            .at(0);
    EXPECT_EQ(feature["observations"].size(), 1U);
    EXPECT_EQ(feature["evidence"].size(), 3U);
    EXPECT_EQ(feature["candidates"][0]["compound"], "vanillin");
}

TEST_F(FurtherEvidenceTest, SaltsHaveNoMassToCompare) {
    const auto feature = at_040("molar_mass", "236.15"); // of procaine, monoisotopic: recomputed
    EXPECT_EQ(candidate_of(feature, "procaine hydrochloride")["further"], 0.0);
    EXPECT_EQ(feature["candidates"][0]["compound"], "procaine hydrochloride");
    EXPECT_NE(feature["warnings"].dump().find("molar_mass does not count for 1 of 8 compounds"),
              std::string::npos)
        << feature["warnings"];
}

TEST_F(FurtherEvidenceTest, CompoundsWithoutADescriptionAreJudgedByTheRest) {
    {
        library::Database open = database();
        const auto id = library::find_by_name(open, "vanillin").at(0).id;
        library::Transaction transaction(open);
        open.cached("DELETE FROM compound_group WHERE compound_id = ?").bind(1, id).run();
        open.cached("DELETE FROM description WHERE compound_id = ?").bind(1, id).run();
        transaction.commit();
    }
    const auto feature = at_040("uv254", "yes");
    EXPECT_EQ(candidate_of(feature, "vanillin")["further"], 0.0);
    EXPECT_LT(candidate_of(feature, "menthol")["further"], 0.0);
    EXPECT_NE(feature["warnings"].dump().find("uv254 does not count for 1 of 8 compounds"),
              std::string::npos)
        << feature["warnings"];
}

TEST_F(FurtherEvidenceTest, FaultsAreNamedWithTheirPlace) {
    const std::string header =
        "sample,feature,system,quantity,value,uv254,stain,stained,molar_mass,"
        "molar_mass_uncertainty,formula\n";
    const std::string row = "f,1,silica,Rf,0.40,";
    expect_refused(header + row + "maybe,,,,,\n", "bad.csv:2, column uv254: found \"maybe\"");
    expect_refused(header + row + ",tea,yes,,,\n", "column stain: found \"tea\"");
    expect_refused(header + row + ",tea,yes,,,\n", "ninhydrin");
    expect_refused(header + row + ",ninhydrin,,,,\n", "column stained: found nothing");
    expect_refused(header + row + ",,yes,,,\n", "column stain: found nothing");
    expect_refused(header + row + ",,,-3,,\n", "column molar_mass: found -3");
    expect_refused(header + row + ",,,heavy,,\n", "column molar_mass: found \"heavy\"");
    expect_refused(header + row + ",,,152,0,\n", "column molar_mass_uncertainty: found 0");
    expect_refused(header + row + ",,,,0.1,\n", "column molar_mass: found nothing");
    expect_refused(header + row + ",,,,,C8H8Qq\n", "column formula: found \"C8H8Qq\"");
}

TEST_F(FurtherEvidenceTest, ContradictionsAreRefused) {
    const std::string header =
        "sample,feature,system,quantity,value,uv254,stain,stained,molar_mass,"
        "formula\nf,1,silica,Rf,0.40,yes,ninhydrin,no,152,C8H8O3\n";
    const std::string row = "f,1,silica,Rf,0.41,";
    expect_refused(header + row + "no,,,,\n", "bad.csv:3, column uv254: found \"no\"");
    expect_refused(header + row + ",NINHYDRIN,yes,,\n", "bad.csv:3, column stained");
    expect_refused(header + row + ",,,153,\n", "bad.csv:3, column molar_mass: found \"153\"");
    expect_refused(header + row + ",,,,C8H8O2\n", "bad.csv:3, column formula: found \"C8H8O2\"");
    const Outcome same =
        cospot({"identify", file("same.csv", header + row +
                                                 "yes,,,,O3H8C8\nf,2,silica,Rf,0.5,"
                                                 "no,,,,\n")});
    EXPECT_EQ(same.code, kDone) << same.err;
}

TEST_F(FurtherEvidenceTest, FeatureWithoutRetentionIsRefused) {
    expect_refused("sample,feature,system,quantity,value,uv254\nf,1,,,,yes\n",
                   "bad.csv:2, column value: found no retention");
    expect_refused("sample,feature,system,quantity,value,uv254\nf,1,,,,\n", "column system");
}

TEST_F(FurtherEvidenceTest, StainTableNamesGroupsThatAreDescribed) {
    std::set<std::string> known{"any", "aromatic_ring", "several_aromatic_rings"};
    for (const auto &group : structure_service().functional_groups()) {
        known.insert(group.name);
    }
    std::vector<Stain> all = stains();
    all.push_back(uv254());
    for (const Stain &stain : all) {
        for (const auto *groups : {&stain.reacts, &stain.reacts_weakly}) {
            for (const std::string &group : *groups) {
                EXPECT_TRUE(known.contains(group)) << stain.name << ": " << group;
            }
        }
    }
}

// Which reagent shows which compound: 2,4-dinitrophenylhydrazine, ninhydrin, iodoplatinate and
// bromocresol green read in detectiontable; the rest stahl1969 and jork1990, from memory. That
// these absorb at 254 nm or not: common practice, no source.
TEST_F(FurtherEvidenceTest, StainsShowWhatTheHandbooksSay) {
    library::Database open = database();
    const auto shows = [&](const Stain &stain, const std::string &name) {
        const auto id = library::find_by_name(open, name).at(0).id;
        const auto description = library::description_of(open, id);
        return seen_probability(stain, reacting_groups(description.value())) > 0.75;
    };
    const auto expect_shown = [&](const Stain &stain, const std::set<std::string> &shown,
                                  const std::set<std::string> &not_shown) {
        for (const std::string &name : shown) {
            EXPECT_TRUE(shows(stain, name)) << stain.name << ", " << name;
        }
        for (const std::string &name : not_shown) {
            EXPECT_FALSE(shows(stain, name)) << stain.name << ", " << name;
        }
    };
    expect_shown(uv254(), {"vanillin", "naphthalene", "benzoic acid", "procaine hydrochloride"},
                 {"menthol", "camphor", "glucose"});
    expect_shown(*find_stain("ninhydrin"), {"benzylamine"}, {"vanillin", "menthol", "glucose"});
    expect_shown(*find_stain("DNPH"), {"vanillin", "camphor"}, {"menthol", "naphthalene"});
    expect_shown(*find_stain("FeCl3"), {"vanillin"}, {"menthol", "benzoic acid", "glucose"});
    expect_shown(*find_stain("BCG"), {"benzoic acid"}, {"menthol", "camphor"});
    expect_shown(*find_stain("anisaldehyde"), {"menthol", "camphor", "glucose"}, {"naphthalene"});
    expect_shown(*find_stain("Dragendorff"), {"procaine hydrochloride"}, {"menthol", "glucose"});
    expect_shown(*find_stain("Ehrlich"), {"procaine hydrochloride"}, {"menthol", "vanillin"});
}

} // namespace
} // namespace cospot
