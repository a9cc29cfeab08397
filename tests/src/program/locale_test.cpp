// A decimal comma in the user's locale changes no number that is read or written.
#include "program_fixture.h"

#include <fmt/format.h>

#include <clocale>
#include <filesystem>

namespace cospot {
namespace {

namespace fs = std::filesystem;

constexpr const char *kGerman = "de_DE.UTF-8";

/// The locale of the C library while it lives, as a library that the program uses might set it.
class GermanLocale {
public:
    GermanLocale() { std::setlocale(LC_ALL, kGerman); }
    ~GermanLocale() { std::setlocale(LC_ALL, "C"); }
    GermanLocale(const GermanLocale &) = delete;
    GermanLocale &operator=(const GermanLocale &) = delete;
};

bool has_german_locale() {
    const bool is_there = std::setlocale(LC_ALL, kGerman) != nullptr;
    std::setlocale(LC_ALL, "C");
    return is_there;
}

class LocaleTest : public ProgramTest {
protected:
    /// All that the program says and writes of the same work in a new library in a new folder.
    [[nodiscard]] std::vector<std::string> work(const std::string &folder) const {
        const fs::path place = folder_ / folder;
        fs::create_directory(place);
        const std::string systems =
            file("systems.csv",
                 "system,technique,stationary_phase,mobile_phase,scale,programme,"
                 "column_length_m,film_um\n"
                 "plate,tlc,silica gel,hexane:ethyl acetate 3.5:1.25,,,,\n"
                 "C18,hplc,C18,water:acetonitrile 62.5:37.5,,isocratic,0.125,\n"
                 "wax,gc,polyethylene glycol,helium,n-alkane,\"60 C, 5 C/min\",30,0.25\n");
        std::string values = "compound,smiles,system,quantity,value,run,date\n";
        for (int carbons = 3; carbons <= 14; ++carbons) {
            for (int run = 1; run <= 4; ++run) {
                const std::string who = fmt::format(
                    "alkanol {},{}O", carbons, std::string(static_cast<std::size_t>(carbons), 'C'));
                values += fmt::format("{},plate,Rf,{:.4f},p{},2025-0{}-01\n", who,
                                      0.06 * carbons + 0.0015 * run, run, run);
                values += fmt::format("{},wax,RI,{:.2f},g{},2025-0{}-02\n", who,
                                      100.25 * carbons + 0.5 * run, run, run);
                values += fmt::format("{},C18,tR,{:.3f},h{},2025-0{}-03\n", who,
                                      0.75 * carbons + 0.005 * run, run, run);
            }
        }
        const std::string table = file("v.csv", values);
        const std::string plate = file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                                    "1,alkanol 8,1,34.6,72.5,standard\n"
                                                    "2,flask,1,22.25,72.5,sample\n"
                                                    "2,flask,2,40.75,72.5,sample\n");
        const std::string peaks =
            file("peaks.csv", "peak,tR,area,width_half\n1,3.752,1520.5,0.085\n2,6.01,33.25,0.12\n");
        const std::string fractions =
            file("f.csv", "fraction,Rf,intensity,mass_mg\n1,0.52,240,3.5\n"
                          "2,0.51,60,1.25\n2,0.31,15,\n3,0.30,170,6.75\n");
        const std::string readings = file("r.csv", "compound,percent,k\na,30.5,6.5\na,50.5,2.25\n"
                                                   "b,30.5,7.5\nb,50.5,2.75\n");
        const auto at = [&](const char *name) { return (place / name).string(); };
        std::vector<std::vector<std::string>> commands{
            {"init"},
            {"learn", "--systems", systems, table},
            {"list", "systems"},
            {"show", "alkanol 5"},
            {"--json", "show", "wax"},
            {"export", "values"},
            {"export", "systems"},
            {"export", "compounds", "--format", "sdf"},
            {"--json", "export", "compounds"},
            {"identify", plate, "--system", "plate", "--explain"},
            {"--json", "identify", peaks, "--system", "C18"},
            {"purity", peaks, "--system", "C18", "--declared", "alkanol 5"},
            {"predict", "CCCCCC(O)CC"},
            {"audit"},
            {"prove", "--dry-run"},
            {"advise", plate, "--system", "plate"},
            {"pool", fractions, "--target", "0.31"},
            {"column", "--system", "plate", "--compounds", "alkanol 4,alkanol 6", "--diameter-mm",
             "30.5"},
            {"resolve", readings, "--picture", at("map.svg")}};
        for (const char *format : {"html", "csv"}) {
            commands.push_back(
                {"identify", plate, "--system", "plate", "--report", at("identify.") + format});
            commands.push_back({"pool", fractions, "--report", at("pool.") + format});
            commands.push_back({"predict", "CCCCCC(O)CC", "--report", at("predict.") + format});
        }
        std::vector<std::string> results;
        for (std::vector<std::string> &command : commands) {
            command.insert(command.begin(), {"--library", at("l.db")});
            const Outcome outcome = cospot(command);
            results.push_back(outcome.out + outcome.err);
        }
        for (const char *name : {"map.svg", "identify.html", "identify.csv", "pool.html",
                                 "pool.csv", "predict.html", "predict.csv"}) {
            std::ifstream in(place / name, std::ios::binary);
            results.emplace_back(std::istreambuf_iterator<char>(in),
                                 std::istreambuf_iterator<char>());
            EXPECT_FALSE(results.back().empty()) << name;
        }
        for (std::string &result : results) {
            result = without_trace(result, place.string());
        }
        return results;
    }

    /// Without the parts that tell where and when.
    static std::string without_trace(std::string text, const std::string &place) {
        for (std::size_t at = text.find(place); at != std::string::npos; at = text.find(place)) {
            text.erase(at, place.size());
        }
        for (const auto &[from, to] :
             {std::pair{"<footer>", "</footer>"}, std::pair{"\"trace\"", "\"notes\""}}) {
            const std::size_t begin = text.find(from);
            if (begin != std::string::npos) {
                text.erase(begin, text.find(to, begin) - begin);
            }
        }
        return text;
    }
};

TEST_F(LocaleTest, ADecimalCommaChangesNothing) {
    if (!has_german_locale()) {
        GTEST_SKIP() << "tools/install makes the locale " << kGerman;
    }
    const std::vector<std::string> expected = work("c");
    std::vector<std::string> found;
    {
        const GermanLocale german;
        ASSERT_STREQ(std::localeconv()->decimal_point, ",");
        found = work("german");
    }
    ASSERT_EQ(found.size(), expected.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
        EXPECT_EQ(found[i], expected[i]) << i;
    }
}

TEST_F(LocaleTest, WhatMayDivideThousandsIsRefusedNotMisread) {
    const Outcome outcome =
        cospot({"learn", "--create-systems",
                file("v.csv", "compound;smiles;system;quantity;value\nethanol;CCO;s;RI;1.234,5\n"
                              "propanol;CCCO;s;RI;1.234\n")});
    EXPECT_EQ(outcome.code, kBadInput);
    EXPECT_NE(outcome.err.find("v.csv:3, column value: found \"1.234\""), std::string::npos)
        << outcome.err;
}

} // namespace
} // namespace cospot
