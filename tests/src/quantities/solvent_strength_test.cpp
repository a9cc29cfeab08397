#include "quantities/solvent_strength.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace cospot::quantities {
namespace {

double on_silica(std::string_view solvent) {
    return solvent_strength(solvent, Adsorbent::silica);
}

double on_alumina(std::string_view solvent) {
    return solvent_strength(solvent, Adsorbent::alumina);
}

template <typename Call> std::string refusal(const Call &call) {
    try {
        static_cast<void>(call());
    } catch (const InputError &error) {
        return error.found() + "; " + error.expected();
    }
    ADD_FAILURE() << "not refused";
    return {};
}

// snyder1974, read as an eluotropic table.
TEST(SolventStrength, HasThePublishedValuesOnAlumina) {
    EXPECT_DOUBLE_EQ(on_alumina("pentane"), 0.00);
    EXPECT_DOUBLE_EQ(on_alumina("toluene"), 0.29);
    EXPECT_DOUBLE_EQ(on_alumina("chloroform"), 0.40);
    EXPECT_DOUBLE_EQ(on_alumina("dichloromethane"), 0.42);
    EXPECT_DOUBLE_EQ(on_alumina("ethyl acetate"), 0.58);
    EXPECT_DOUBLE_EQ(on_alumina("acetonitrile"), 0.65);
    EXPECT_DOUBLE_EQ(on_alumina("methanol"), 0.95);
}

// snyder1997, from memory.
TEST(SolventStrength, HasThePublishedValuesOnSilica) {
    EXPECT_DOUBLE_EQ(on_silica("dichloromethane"), 0.30);
    EXPECT_DOUBLE_EQ(on_silica("ethyl acetate"), 0.48);
    EXPECT_DOUBLE_EQ(on_silica("acetonitrile"), 0.52);
    EXPECT_DOUBLE_EQ(on_silica("methanol"), 0.70);
}

// snyder1978, read in libretexts28; acetic acid and acetone in polarityslides.
TEST(SolventStrength, HasThePublishedPolarities) {
    EXPECT_DOUBLE_EQ(solvent_polarity("cyclohexane"), 0.04);
    EXPECT_DOUBLE_EQ(solvent_polarity("hexane"), 0.1);
    EXPECT_DOUBLE_EQ(solvent_polarity("carbon tetrachloride"), 1.6);
    EXPECT_DOUBLE_EQ(solvent_polarity("toluene"), 2.4);
    EXPECT_DOUBLE_EQ(solvent_polarity("diethyl ether"), 2.8);
    EXPECT_DOUBLE_EQ(solvent_polarity("tetrahydrofuran"), 4.0);
    EXPECT_DOUBLE_EQ(solvent_polarity("ethanol"), 4.3);
    EXPECT_DOUBLE_EQ(solvent_polarity("ethyl acetate"), 4.4);
    EXPECT_DOUBLE_EQ(solvent_polarity("1,4-dioxane"), 4.8);
    EXPECT_DOUBLE_EQ(solvent_polarity("acetone"), 5.1);
    EXPECT_DOUBLE_EQ(solvent_polarity("methanol"), 5.1);
    EXPECT_DOUBLE_EQ(solvent_polarity("acetonitrile"), 5.8);
    EXPECT_DOUBLE_EQ(solvent_polarity("acetic acid"), 6.2);
    EXPECT_DOUBLE_EQ(solvent_polarity("water"), 10.2);
}

TEST(SolventStrength, RisesInTheEluotropicOrder) {
    const std::vector<std::string_view> series{"pentane",       "toluene",    "dichloromethane",
                                               "ethyl acetate", "2-propanol", "methanol"};
    for (std::size_t next = 1; next < series.size(); ++next) {
        EXPECT_LT(on_silica(series[next - 1]), on_silica(series[next])) << series[next];
        EXPECT_LT(on_alumina(series[next - 1]), on_alumina(series[next])) << series[next];
    }
}

TEST(SolventStrength, GoesByEveryNameOfASolvent) {
    for (const char *name : {"ethyl acetate", "Ethyl Acetate", "EtOAc", "EA", " AcOEt "}) {
        EXPECT_EQ(solvent_name(name), "ethyl acetate") << name;
    }
    EXPECT_EQ(solvent_name("DCM"), "dichloromethane");
    EXPECT_EQ(solvent_name("CH2Cl2"), "dichloromethane");
    EXPECT_EQ(solvent_name("Et2O"), "diethyl ether");
    EXPECT_EQ(solvent_name("MeOH"), "methanol");
    EXPECT_EQ(solvent_name("hexanes"), "hexane");
    EXPECT_EQ(solvent_name("IPA"), "2-propanol");
    EXPECT_EQ(solvent_name("dmf"), "N,N-dimethylformamide");
}

TEST(SolventStrength, RefusesASolventThatItDoesNotKnow) {
    EXPECT_NE(refusal([] { return solvent_name("unobtainium"); }).find("\"unobtainium\""),
              std::string::npos);
    EXPECT_NE(refusal([] { return solvent_name(""); }).find("the solvent \"\""), std::string::npos);
    EXPECT_NE(refusal([] {
                  return solvent_strength("water", Adsorbent::silica);
              }).find("the solvent \"water\"; a solvent with a published strength on silica"),
              std::string::npos);
    EXPECT_NE(refusal([] { return solvent_polarity("isooctane"); }).find("polarity"),
              std::string::npos);
}

} // namespace
} // namespace cospot::quantities
