// Small readers of single values: numbers, dates, registry numbers, quantities, texts.
#include "shared/date.h"
#include "shared/number.h"
#include "shared/quantity.h"
#include "shared/registry_number.h"
#include "shared/text.h"

#include <gtest/gtest.h>

#include <clocale>

namespace cospot {
namespace {

TEST(Number, ReadsWhatSpreadsheetsWrite) {
    EXPECT_EQ(number_from_text("1.5"), 1.5);
    EXPECT_EQ(number_from_text(" +1e3 "), 1000.0);
    EXPECT_EQ(number_from_text("-0.25"), -0.25);
}

TEST(Date, DecimalYearTakesTheMiddleOfAMonthOrYear) {
    EXPECT_NEAR(decimal_year("2024-01-01").value(), 2024.0, 0.003);
    EXPECT_NEAR(decimal_year("2024-12-31").value(), 2025.0, 0.005);
    EXPECT_NEAR(decimal_year("2024-07-02").value(), 2024.5, 0.005);
    EXPECT_NEAR(decimal_year("2024-07").value(), 2024.54, 0.01);
    EXPECT_NEAR(decimal_year("2024").value(), 2024.5, 0.01);
    for (const char *text : {"", "24", "2024-13", "yesterday"}) {
        EXPECT_FALSE(decimal_year(text)) << text;
    }
}

TEST(Number, RefusesWhatIsNoFiniteNumber) {
    for (const char *text : {"", "abc", "1,5", "1.5 min", "nan", "inf", "1e999", "+-1", "0x10"}) {
        EXPECT_EQ(number_from_text(text), std::nullopt) << text;
    }
}

TEST(Number, DoesNotDependOnTheLocale) {
    if (std::setlocale(LC_NUMERIC, "de_DE.UTF-8") == nullptr) {
        GTEST_SKIP() << "no locale with a decimal comma is installed";
    }
    EXPECT_EQ(number_from_text("1.5"), 1.5);
    EXPECT_EQ(exact_text(1.5), "1.5");
    std::setlocale(LC_NUMERIC, "C");
}

TEST(Number, ExactTextReadsBackAsTheSameDouble) {
    for (const double value : {0.1, 1.0 / 3.0, 1234.5678901234567, 1e-300}) {
        EXPECT_EQ(number_from_text(exact_text(value)), value);
    }
}

TEST(Date, TakesIsoDatesInThreePrecisions) {
    for (const char *text : {"2024-02-29", "2023-12", "1999"}) {
        EXPECT_EQ(parse_date(text, {}), text);
    }
}

/// Month first or day first cannot be told with slashes: these are refused.
TEST(Date, TakesOtherOrdersThatHaveOneMeaning) {
    for (const char *text : {"2026-03-01", "1.3.2026", "01.03.2026", "1 Mar 2026", "01-MAR-2026",
                             "2026/3/1", "2026/03/01"}) {
        EXPECT_EQ(parse_date(text, {}), "2026-03-01") << text;
    }
    for (const char *text : {"1.3.26", "31.2.2026", "0.3.2026", "1 Mrz 2026", "1 anf 2026",
                             "1/Mar/2026", "13/3/2026", "1.3.", "1..2026", "2026/3/1/1"}) {
        EXPECT_THROW((void)parse_date(text, {}), InputError) << text;
    }
}

TEST(Date, ATimeOfDayBehindItIsDropped) {
    for (const char *text :
         {"03.06.2024 08:12", "2024-06-03T08:12", "2024-06-03 8:12:59", "2024-06-03T08:12:59.250Z",
          "2024-06-03T08:12:59+02:00", "3 Jun 2024 08:12", "3.6.2024  8:12 am"}) {
        EXPECT_EQ(parse_date(text, {}), "2024-06-03") << text;
    }
    for (const char *text : {"03.06.2024 08:75", "03.06.2024 25:00", "03.06.2024 8", "08:12",
                             "3/6/2024 08:12", "2024-06-03 x:12", "2024-06-03 08:1"}) {
        EXPECT_THROW((void)parse_date(text, {}), InputError) << text;
    }
}

TEST(Date, RefusesImpossibleAndOtherForms) {
    for (const char *text : {"2023-02-29", "2023-13-01", "3/4/2023", "2023-1-1", "20230101", "x"}) {
        EXPECT_THROW((void)parse_date(text, {}), InputError) << text;
    }
}

TEST(RegistryNumber, TakesPublishedNumbers) {
    // pubchem, read: water, caffeine, ethanol, sodium chloride, cholesterol.
    for (const char *text : {"7732-18-5", "58-08-2", "64-17-5", "7647-14-5", "57-88-5"}) {
        EXPECT_TRUE(is_registry_number(text)) << text;
    }
}

TEST(RegistryNumber, RefusesEveryWrongCheckDigit) {
    for (char digit = '0'; digit <= '9'; ++digit) {
        EXPECT_EQ(is_registry_number(std::string("58-08-") + digit), digit == '2');
    }
}

TEST(RegistryNumber, RefusesOtherForms) {
    for (const char *text : {"", "58082", "58-082", "5-08-2", "58-08-22", "abc-de-f", "58-8-2"}) {
        EXPECT_FALSE(is_registry_number(text)) << text;
    }
}

TEST(RegistryNumber, SaysWhichDigitIsDue) {
    try {
        check_registry_number("58-08-3", {"f", 2, "cas"});
        FAIL();
    } catch (const InputError &error) {
        EXPECT_NE(error.expected().find("check digit is 2"), std::string::npos);
    }
}

TEST(Quantity, RefusesImpossibleValues) {
    EXPECT_THROW(check_physical(Quantity::Rf, 1.1, {}), InputError);
    EXPECT_THROW(check_physical(Quantity::Rf, -0.1, {}), InputError);
    EXPECT_THROW(check_physical(Quantity::k, -0.5, {}), InputError);
    EXPECT_THROW(check_physical(Quantity::RI, 0.0, {}), InputError);
    EXPECT_THROW(check_physical(Quantity::tR, -1.0, {}), InputError);
    EXPECT_THROW(check_physical(Quantity::RRT, 0.0, {}), InputError);
    EXPECT_THROW(check_physical(Quantity::r, -0.2, {}), InputError);
}

TEST(Quantity, RelativeRetentionIsOfColumnsAndHasThreeDecimals) {
    for (const Quantity quantity : {Quantity::RRT, Quantity::r}) {
        EXPECT_TRUE(is_relative(quantity));
        EXPECT_EQ(shown(quantity, 0.45), "0.450");
        EXPECT_EQ(quantity_from_text(to_text(quantity)), quantity);
        for (const Technique technique : {Technique::hplc, Technique::gc, Technique::column}) {
            EXPECT_TRUE(can_show(technique, quantity));
        }
        EXPECT_FALSE(can_show(Technique::tlc, quantity));
        EXPECT_FALSE(can_show(Technique::paper, quantity));
    }
    EXPECT_EQ(to_text(Quantity::RRT), "RRT");
    EXPECT_EQ(to_text(Quantity::r), "r");
    EXPECT_FALSE(is_relative(Quantity::tR));
}

TEST(Quantity, KeepsReadingErrorAtTheEndsOfThePlate) {
    EXPECT_NO_THROW(check_physical(Quantity::Rf, 1.0073, {}));
    EXPECT_NO_THROW(check_physical(Quantity::Rf, -0.0127, {}));
    EXPECT_NO_THROW(check_physical(Quantity::k, 0.0, {}));
}

TEST(Text, QuotesAndShortensForMessages) {
    EXPECT_EQ(in_quotes("a\nb"), "\"a\\x0Ab\"");
    EXPECT_EQ(in_quotes(std::string(100, 'x'), 5), "\"xxxxx...\"");
    EXPECT_EQ(in_quotes("é"), "\"é\"");
}

TEST(Text, DisarmsTerminalEscapes) {
    EXPECT_EQ(printable("\x1B[31mred"), "\\u001B[31mred");
}

TEST(Text, CountsAndFitsColumns) {
    EXPECT_EQ(display_width("β-carotene"), 10U);
    EXPECT_EQ(display_width("e\xCC\x81"), 1U); // e and a combining acute
    EXPECT_EQ(fitted("naphthalene", 6), "napht…");
    EXPECT_EQ(fitted("naphthalene", 11), "naphthalene");
    EXPECT_EQ(padded("β", 3), "β  ");
    EXPECT_EQ(padded("naphthalene", 6), "napht…");
}

TEST(Text, FindsTheFirstByteThatIsNoUtf8) {
    EXPECT_EQ(first_invalid_utf8("grün"), std::string_view::npos);
    EXPECT_EQ(first_invalid_utf8("ab\xC0\x80"), 2U);   // overlong
    EXPECT_EQ(first_invalid_utf8("\xED\xA0\x80"), 0U); // surrogate
    EXPECT_EQ(first_invalid_utf8("a\xE2\x82"), 1U);    // cut short
}

// Test vectors of fnv1991, from memory.
TEST(NumberOf, IsFnv1aOfTheBytes) {
    EXPECT_EQ(number_of(""), 0xcbf29ce484222325ULL);
    EXPECT_EQ(number_of("a"), 0xaf63dc4c8601ec8cULL);
    EXPECT_EQ(number_of("foobar"), 0x85944171f73967e8ULL);
}

} // namespace
} // namespace cospot
