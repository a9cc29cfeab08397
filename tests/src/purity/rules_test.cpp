// Thresholds for impurities, checked against the illustrations of the guidelines themselves (ichq3a
// and ichq3b, attachment 2). The thresholds are those of attachment 1.
#include "purity/rules.h"

#include "readers/purity_rules.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace cospot::purity {
namespace {

struct Illustration {
    const char *kind;
    double dose_mg;
    double raw_percent;
    const char *reported; ///< empty: not reported
    bool identify;
    bool qualify;
};

TEST(Rules, IllustrationsOfTheGuidelines) {
    const std::vector<Illustration> illustrations{
        // ichq3a and ichq3b, from memory; the verdicts recomputed from thresholds that were read.
        {"substance", 500, 0.044, "", false, false},
        {"substance", 500, 0.0963, "0.10", false, false},
        {"substance", 500, 0.12, "0.12", true, false},
        {"substance", 500, 0.1649, "0.16", true, true},
        {"product", 50, 0.04, "", false, false},
        {"product", 50, 0.2143, "0.2", false, false},
        {"product", 50, 0.349, "0.3", true, false},
        {"product", 50, 0.55, "0.6", true, true},
        // ichq3a and ichq3b, read.
        {"substance", 800, 0.066, "0.07", false, false},
        {"substance", 800, 0.124, "0.12", true, false},
        {"substance", 800, 0.143, "0.14", true, true},
        {"product", 1900, 0.049, "", false, false},
        {"product", 1900, 0.079, "0.08", false, false},
        {"product", 1900, 0.183, "0.18", true, false},
        {"product", 1900, 0.192, "0.19", true, true},
    };
    for (const Illustration &one : illustrations) {
        const Rules rules = guideline_rules(one.kind);
        const Decimal threshold = band_for(rules.reporting, one.dose_mg)->percent;
        const Decimal reported = reported_percent(one.raw_percent, threshold.decimals);
        const std::string text = exceeds(reported.value, threshold) ? to_text(reported) : "";
        EXPECT_EQ(text, one.reported) << one.kind << ' ' << one.dose_mg << ' ' << one.raw_percent;
        EXPECT_EQ(exceeds(reported, *band_for(rules.identification, one.dose_mg), one.dose_mg),
                  one.identify)
            << one.kind << ' ' << one.dose_mg << ' ' << one.raw_percent;
        EXPECT_EQ(exceeds(reported, *band_for(rules.qualification, one.dose_mg), one.dose_mg),
                  one.qualify)
            << one.kind << ' ' << one.dose_mg << ' ' << one.raw_percent;
    }
}

TEST(Rules, TheLowerOfPercentAndIntakeCounts) {
    // ichq3a and ichq3b, attachment 2: 0.8 g of substance and 1.9 g of product read; 50 mg of
    // product recomputed, the lower of 0.5 % and 200 ug.
    const Rules substance = guideline_rules("substance");
    EXPECT_EQ(to_text(*band_for(substance.identification, 800), 800), "0.10 %");
    EXPECT_EQ(to_text(*band_for(substance.qualification, 800), 800), "1.0 mg a day");
    const Rules product = guideline_rules("product");
    EXPECT_EQ(to_text(*band_for(product.identification, 50), 50), "0.2 %");
    EXPECT_EQ(to_text(*band_for(product.qualification, 50), 50), "200 ug a day");
    EXPECT_EQ(to_text(*band_for(product.identification, 1900), 1900), "2 mg a day");
    EXPECT_EQ(to_text(*band_for(product.qualification, 1900), 1900), "3 mg a day");
}

TEST(Rules, BandsEndWhereTheGuidelineSays) {
    // ichq3b, read: below 1 mg, 1 to 10 mg, above 10 mg to 2 g, above 2 g.
    const DoseBands bands = guideline_rules("product").identification;
    const auto percent = [&](double dose_mg) { return band_for(bands, dose_mg)->percent.value; };
    EXPECT_EQ(percent(0.99), 1.0);
    EXPECT_EQ(percent(1.0), 0.5);
    EXPECT_EQ(percent(10.0), 0.5);
    EXPECT_EQ(percent(10.1), 0.2);
    EXPECT_EQ(percent(2000.0), 0.2);
    EXPECT_EQ(percent(2000.1), 0.1);
    EXPECT_EQ(band_for(guideline_rules("substance").reporting, 2000.0)->percent.value, 0.05);
    EXPECT_EQ(band_for(guideline_rules("substance").reporting, 2001.0)->percent.value, 0.03);
}

// tgarounding, read.
TEST(Rounding, HalfGoesUp) {
    EXPECT_DOUBLE_EQ(rounded_half_up(0.55, 1), 0.6);
    EXPECT_DOUBLE_EQ(rounded_half_up(0.145, 2), 0.15); // 0.145 is a little less in binary
    EXPECT_DOUBLE_EQ(rounded_half_up(0.1449, 2), 0.14);
    EXPECT_DOUBLE_EQ(rounded_half_up(2.5, 0), 3.0);
    EXPECT_EQ(rounded_half_up(4544444444844449.0, 0), 4544444444844449.0); // half is no part of it
}

TEST(Rounding, TwoDecimalsBelowOnePercentAndOneFromThere) {
    // ichq3a, section 5, rule read; 0.0963 of attachment 2, the other numbers our own.
    EXPECT_EQ(to_text(reported_percent(0.0963, 2)), "0.10");
    EXPECT_EQ(to_text(reported_percent(1.249, 2)), "1.2");
    EXPECT_EQ(to_text(reported_percent(0.996, 2)), "1.0");
    EXPECT_EQ(to_text(reported_percent(0.994, 2)), "0.99");
    EXPECT_EQ(to_text(reported_percent(99.96, 1)), "100.0");
}

TEST(Rounding, ReadsDecimalsAsWritten) {
    const auto limit = decimal_from_text("0.10");
    ASSERT_TRUE(limit);
    EXPECT_EQ(limit->decimals, 2);
    EXPECT_TRUE(exceeds(0.106, *limit));
    EXPECT_FALSE(exceeds(0.104, *limit));
    EXPECT_FALSE(exceeds(0.104, *decimal_from_text("0.1")));
    for (const char *bad : {"", "-1", "1e3", "0,1", ".", "1.2.3", " 1"}) {
        EXPECT_FALSE(decimal_from_text(bad)) << bad;
    }
}

std::string fault_of(const std::string &json) {
    try {
        (void)read_purity_rules(json, "rules.json");
    } catch (const InputError &error) {
        return error.what();
    }
    return "no fault";
}

TEST(RulesFile, ReadsAllThatItDocuments) {
    const Rules rules = read_purity_rules(R"({
        "name": "house rules", "source": "invented",
        "reporting": [{"percent": "0.05"}],
        "specified": [{"compound": "alpha", "percent": "0.15"}],
        "any_other": "0.10", "total": "0.5", "declared_at_least": "98.0",
        "suitability": {"resolution_at_least": 2, "symmetry_to": 1.5}})",
                                          "rules.json");
    EXPECT_FALSE(needs_dose(rules));
    ASSERT_EQ(rules.specified.size(), 1U);
    EXPECT_EQ(rules.specified[0].compound, "alpha");
    EXPECT_EQ(to_text(*rules.any_other), "0.10");
    EXPECT_EQ(rules.declared_at_least->decimals, 1);
    EXPECT_EQ(*rules.suitability.resolution_at_least, 2.0);
    EXPECT_FALSE(rules.suitability.symmetry_from);
    EXPECT_TRUE(needs_dose(guideline_rules("substance")));
}

TEST(RulesFile, RefusesDoseGapsWrongOrderAndMalformedJson) {
    EXPECT_NE(fault_of(R"({"name":"x","reporting":[{"dose_up_to":"2 g","percent":"0.05"}]})")
                  .find("no threshold for doses above 2000 mg"),
              std::string::npos);
    EXPECT_NE(fault_of(R"({"name":"x","reporting":[{"dose_up_to":"2 g","percent":"0.05"},
              {"dose_up_to":"1 g","percent":"0.04"},{"percent":"0.03"}]})")
                  .find("reporting[1]"),
              std::string::npos);
    EXPECT_NE(fault_of(R"({"name":"x","reporting":[{"percent":"0.05"},{"percent":"0.03"}]})")
                  .find("only the last band has none"),
              std::string::npos);
    EXPECT_NE(fault_of(R"({"name":"x","totall":"0.5"})").find("totall"), std::string::npos);
    EXPECT_NE(fault_of(R"({"name":"x","total":0.5})").find("as a text"), std::string::npos);
    EXPECT_NE(fault_of(R"({"name":"x","total":"150"})").find("at most 100"), std::string::npos);
    EXPECT_NE(fault_of(R"({"total":"0.5"})").find("name"), std::string::npos);
    EXPECT_NE(fault_of(R"({"name":"x","identification":[{"percent":"0.1","intake":"5 pounds"}]})")
                  .find("identification[0].intake"),
              std::string::npos);
    EXPECT_NE(fault_of("[]").find("an object"), std::string::npos);
    const std::string malformed = fault_of("{\"name\": \"x\",\n \"total\": }");
    EXPECT_NE(malformed.find("rules.json:2"), std::string::npos) << malformed;
    EXPECT_THROW((void)guideline_rules("biscuit"), InputError);
}

} // namespace
} // namespace cospot::purity
