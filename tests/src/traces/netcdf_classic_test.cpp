// The reader of netCDF classic beside the format's own programs, and against headers that lie.
#include "traces/netcdf_classic.h"

#include "made_netcdf.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <vector>

namespace cospot {
namespace {

// Invented values. Two variables share the records, one of them of odd length: the padding between
// records matters.
const std::string kAllTypes = R"(netcdf all_types {
dimensions: row = UNLIMITED ; three = 3 ; word = 5 ;
variables:
  byte small(three) ; short medium(three) ; int large(three) ; float single(three) ;
  double precise(three) ; char words(three, word) ; double alone ;
  short odd(row) ; float table(row, three) ;
  single:units = "mAU" ; single:scale = 0.25, 4. ; single:count = 7s ;
  :title = "invented" ;
data:
  small = -128, 0, 127 ; medium = -32768, 1, 32767 ; large = -2147483648, 5, 2147483647 ;
  single = 0.4, -1.5e-30, 3.25e30 ; precise = 0.1, -2.5e-300, 1e300 ;
  words = "one", "two", "three" ; alone = 0.4 ;
  odd = 1, -2, 3, -4 ;
  table = 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11.5, 12 ;
})";

std::vector<double> values_of(const std::string &bytes, const std::string &variable) {
    std::istringstream in(bytes);
    NetcdfClassic netcdf(in, "made.nc");
    return netcdf.numbers(*netcdf.variable(variable), 1000);
}

/// "" where the file and all of its numbers can be read.
std::string fault_of(const std::string &bytes) {
    try {
        for (const char *name : {"small", "precise", "odd", "table"}) {
            std::istringstream in(bytes);
            NetcdfClassic netcdf(in, "made.nc");
            if (const NetcdfVariable *variable = netcdf.variable(name)) {
                (void)netcdf.numbers(*variable, 1000);
            }
        }
    } catch (const InputError &error) {
        return error.what();
    }
    return "";
}

class NetcdfClassicOf : public ::testing::TestWithParam<const char *> {};

TEST_P(NetcdfClassicOf, ReadsWhatItsOwnProgramReads) {
    const MadeNetcdf made(kAllTypes, GetParam());
    ASSERT_TRUE(made.is_made());
    for (const char *name :
         {"small", "medium", "large", "single", "precise", "alone", "odd", "table"}) {
        const std::vector<double> dumped = made.dumped(name);
        const std::vector<double> read = values_of(made.bytes(), name);
        ASSERT_EQ(read.size(), dumped.size()) << name;
        ASSERT_FALSE(read.empty()) << name;
        for (std::size_t i = 0; i < read.size(); ++i) {
            // ncdump prints 9 digits of a float, 17 of a double.
            EXPECT_NEAR(read[i], dumped[i], 1e-8 * std::abs(dumped[i])) << name << " " << i;
        }
    }
    EXPECT_EQ(values_of(made.bytes(), "precise"), made.dumped("precise"));
}

TEST_P(NetcdfClassicOf, ReadsTextsAndAttributes) {
    const MadeNetcdf made(kAllTypes, GetParam());
    std::istringstream in(made.bytes());
    NetcdfClassic netcdf(in, "made.nc");
    const std::vector<std::string> words = netcdf.texts(*netcdf.variable("words"), 100);
    ASSERT_EQ(words.size(), 3U);
    EXPECT_EQ(words[0], std::string("one\0\0", 5));
    EXPECT_EQ(words[2], "three");
    ASSERT_NE(netcdf.attribute("title"), nullptr);
    EXPECT_EQ(netcdf.attribute("title")->text, "invented");
    const NetcdfVariable &single = *netcdf.variable("single");
    EXPECT_EQ(single.attribute("units")->text, "mAU");
    EXPECT_EQ(single.attribute("scale")->numbers, (std::vector<double>{0.25, 4.0}));
    EXPECT_EQ(single.attribute("count")->numbers, (std::vector<double>{7.0}));
    EXPECT_EQ(netcdf.variable("absent"), nullptr);
    EXPECT_THROW((void)netcdf.numbers(*netcdf.variable("words"), 100), InputError);
    EXPECT_THROW((void)netcdf.texts(single, 100), InputError);
    EXPECT_THROW((void)netcdf.numbers(single, 2), InputError); // it has 3
}

TEST_P(NetcdfClassicOf, DoesNotFillUpTheRecordsOfAVariableAlone) {
    const MadeNetcdf made("netcdf alone { dimensions: row = UNLIMITED ; variables: short odd(row) ;"
                          " data: odd = 1, 2, 3, 4, 5 ; }",
                          GetParam());
    EXPECT_EQ(values_of(made.bytes(), "odd"), (std::vector<double>{1, 2, 3, 4, 5}));
}

TEST_P(NetcdfClassicOf, CountsTheRecordsOfAFileThatWasNeverClosed) {
    const MadeNetcdf made(kAllTypes, GetParam());
    std::string bytes = made.bytes();
    const bool is_wide = std::string(GetParam()) == "cdf5";
    bytes.replace(4, is_wide ? 8 : 4, is_wide ? 8 : 4, '\xFF');
    EXPECT_EQ(values_of(bytes, "odd"), (std::vector<double>{1, -2, 3, -4}));
    EXPECT_EQ(values_of(bytes, "table").size(), 12U);
}

TEST_P(NetcdfClassicOf, IsRefusedWhereverItIsCutOff) {
    const MadeNetcdf made(kAllTypes, GetParam());
    const std::string bytes = made.bytes();
    ASSERT_EQ(fault_of(bytes), "");
    for (std::size_t size = 0; size + 4 < bytes.size(); ++size) { // but for what fills up the end
        EXPECT_NE(fault_of(bytes.substr(0, size)), "") << size;
    }
}

TEST_P(NetcdfClassicOf, SurvivesEachByteOfTheHeaderTurnedRound) {
    const MadeNetcdf made(kAllTypes, GetParam());
    const std::string bytes = made.bytes();
    std::size_t refused = 0;
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        std::string lying = bytes;
        lying[i] = static_cast<char>(~lying[i]);
        refused += fault_of(lying).empty() ? 0 : 1; // no crash, no endless loop
    }
    EXPECT_GT(refused, bytes.size() / 4);
}

INSTANTIATE_TEST_SUITE_P(Kinds, NetcdfClassicOf,
                         ::testing::Values("classic", "64-bit offset", "cdf5"));

TEST(NetcdfClassic, ReadsTheFurtherTypesOfCdf5) {
    const MadeNetcdf made(R"(netcdf wide { dimensions: two = 2 ;
        variables: ubyte a(two) ; ushort b(two) ; uint c(two) ; uint64 e(two) ;
        data: a = 0, 254 ; b = 0, 65534 ; c = 0, 4294967294 ; e = 0, 9007199254740992 ; })",
                          "cdf5");
    ASSERT_TRUE(made.is_made());
    for (const char *name : {"a", "b", "c", "e"}) {
        EXPECT_EQ(values_of(made.bytes(), name), made.dumped(name)) << name;
    }
}

// ncgen 4.9.0 makes int of int64 in CDF-5: the type code of uint64 is made that of int64 by hand.
TEST(NetcdfClassic, ReadsSignedNumbersOf64Bits) {
    const MadeNetcdf made("netcdf wide { dimensions: two = 2 ; variables: uint64 e(two) ; data: "
                          "e = 5, 18446744073709551614 ; }",
                          "cdf5");
    std::string bytes = made.bytes();
    const std::size_t type = bytes.rfind(std::string("\0\0\0\x0B", 4));
    ASSERT_NE(type, std::string::npos);
    bytes[type + 3] = '\x0A';
    EXPECT_EQ(values_of(bytes, "e"), (std::vector<double>{5, -2}));
}

TEST(NetcdfClassic, TakesNoMemoryThatTheHeaderOnlyClaims) {
    const MadeNetcdf made("netcdf big { dimensions: n = 4 ; variables: double v(n) ; data: "
                          "v = 1, 2, 3, 4 ; }",
                          "classic");
    std::string bytes = made.bytes();
    const std::size_t length = bytes.find('n', 12) + 4; // of the dimension, behind its padded name
    ASSERT_EQ(bytes[length + 3], 4);
    bytes[length] = '\x7F'; // two thousand million values
    std::istringstream in(bytes);
    NetcdfClassic netcdf(in, "made.nc");
    EXPECT_THROW((void)netcdf.numbers(*netcdf.variable("v"), 5'000'000), InputError);
    bytes[length] = '\0';
    bytes[length + 2] = '\x10'; // 4100 values: few enough, but not in the file
    std::istringstream again(bytes);
    NetcdfClassic short_file(again, "made.nc");
    try {
        (void)short_file.numbers(*short_file.variable("v"), 5'000'000);
        FAIL();
    } catch (const InputError &error) {
        EXPECT_EQ(std::string(error.what()), "made.nc, column v: found data behind the end of the "
                                             "file; expected a whole netCDF file");
    }
}

} // namespace
} // namespace cospot
