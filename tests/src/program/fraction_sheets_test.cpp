// pool: sheets of fractions as people write them. The column is invented.
#include "program_fixture.h"

namespace cospot {
namespace {

class FractionSheets : public ProgramTest {};

TEST_F(FractionSheets, ARowMayHoldSeveralFractionsAndSpots) {
    const std::vector<std::string> how{
        "--map",        "fraction=Tubes", "--map",        "Rf=Rf spot 1", "--map",
        "Rf=Rf spot 2", "--map",          "Rf=Rf spot 3", "--target",     "0,36"};
    const std::string sheet = "Column 104, 15 mL tubes;;;;\n"
                              "Tubes;Rf spot 1;Rf spot 2;Rf spot 3;remark\n"
                              "1-2;-;;;empty\n3–5;0,90;;;first\n6;;0,43;0,36;mixed\n"
                              "7;;;0,36;\n8;;;ca. 0,36;weak\n9;-;;;\n";
    const std::string in_full = "fraction,Rf\n1,\n2,\n3,0.90\n4,0.90\n5,0.90\n6,0.43\n6,0.36\n"
                                "7,0.36\n8,0.36\n9,\n";
    const auto with = [&](const std::string &content, std::vector<std::string> options) {
        options.insert(options.begin(), {"pool", file("t.csv", content)});
        return cospot(options);
    };
    const Outcome ranges = with(sheet, how);
    const Outcome rows = with(in_full, {"--target", "0.36"});
    EXPECT_EQ(ranges.code, rows.code) << ranges.err;
    EXPECT_HOLDS(ranges.out, "7-8");
    EXPECT_HOLDS(on_one_line(ranges.out + ranges.err),
                 "what is stated as \"ca.\" in column Rf is read as the number behind it (line 7)");
    EXPECT_EQ(ranges.out.substr(0, ranges.out.find("\n\n")),
              rows.out.substr(0, rows.out.find("\n\n")));
    EXPECT_HOLDS(with("fraction,Rf,mass_mg\n1-3,0.4,12\n", {}).err, "a row for each fraction");
    EXPECT_HOLDS(with("fraction,Rf\n7-5,0.4\n", {}).err, "\"7-5\"");
}

} // namespace
} // namespace cospot
