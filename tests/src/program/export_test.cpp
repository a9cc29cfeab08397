// list with filters, export, and reading an export back.
#include "program_fixture.h"

namespace cospot {
namespace {

class ExportTest : public ProgramTest {
protected:
    ExportTest() {
        const std::string systems = file(
            "systems.csv",
            "system,technique,stationary_phase,mobile_phase,scale,programme,column_length_m,"
            "column_diameter_mm,film_um,particle_um,note,reference\n"
            "silica,tlc,silica gel,hexane:ethyl acetate 3:1,,,,,,,\"a, \"\"quoted\"\" note\",\n"
            "wax,gc,polyethylene glycol,helium,n-alkane,\"60 C, 5 C/min\",30,0.25,0.25,,,\n"
            "rp,hplc,C18,water:acetonitrile 60:40,alkyl aryl "
            "ketone,isocratic,0.15,2.1,,1.8,,vanillin\n");
        const std::string compounds =
            file("compounds.csv", "compound,smiles,cas,synonyms\n"
                                  "caffeine,Cn1c(=O)c2c(ncn2C)n(C)c1=O,58-08-2,theine|guaranine\n"
                                  "=HYPERLINK,CCC,,\n");
        const std::string values = file(
            "values.csv",
            "compound,smiles,system,quantity,value,uncertainty,run,date,operator,instrument,source,"
            "note\n"
            "vanillin,COc1cc(C=O)ccc1O,silica,Rf,0.1234567890123,0.01,p1,2024-01-05,group A,tank 1,"
            "invented,\"two\nlines\"\n"
            "vanillin,COc1cc(C=O)ccc1O,wax,RI,2570.5,,g1,2024-03,,GC 2,,\n"
            "linalool,CC(C)=CCCC(C)(O)C=C,wax,RI,1547,,g1,2024-03,,GC 2,-1 note,+plus\n"
            "caffeine,,rp,k,0.5,,h1,2025-06-01,,,,\n"
            "caffeine,,rp,tR,1.65,,h1,2025-06-01,,,,\n"
            "caffeine,,rp,RRT,0.45,0.002,h1,2025-06-01,,,,\n"
            "caffeine,,rp,r,0.31,,h1,2025-06-01,,,,\n");
        const Outcome learned = cospot({"learn", "--systems", systems, compounds, values});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    std::vector<std::string> listed(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"--json", "list"});
        const Outcome outcome = cospot(std::move(arguments));
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        std::vector<std::string> names;
        for (const auto &line : outcome.lines()) {
            names.push_back(line.at("compound"));
        }
        return names;
    }

    /// Calls the program with another library in the same folder.
    Outcome with_library(const std::string &name, std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"--library", (folder_ / name).string()});
        std::istringstream in;
        std::ostringstream out;
        std::ostringstream err;
        const int code = run_command_line(arguments, in, out, err);
        return {code, out.str(), err.str()};
    }
};

using Names = std::vector<std::string>;

TEST_F(ExportTest, ListIsNarrowedByEveryFilter) {
    EXPECT_EQ(listed({}), (Names{"=HYPERLINK", "caffeine", "linalool", "vanillin"}));
    EXPECT_EQ(listed({"--technique", "gc"}), (Names{"linalool", "vanillin"}));
    EXPECT_EQ(listed({"--system", "silica"}), (Names{"vanillin"}));
    EXPECT_EQ(listed({"--name", "ANILL"}), (Names{"vanillin"}));
    EXPECT_EQ(listed({"--name", "theine"}), (Names{"caffeine"}));
    EXPECT_EQ(listed({"--name", "%"}), (Names{}));
    EXPECT_EQ(listed({"--mass", "152:155"}), (Names{"linalool", "vanillin"}));
    EXPECT_EQ(listed({"--mass", "190:"}), (Names{"caffeine"}));
    EXPECT_EQ(listed({"--from", "2025"}), (Names{"caffeine"}));
    EXPECT_EQ(listed({"--to", "2024-01"}), (Names{"vanillin"}));
    EXPECT_EQ(listed({"--from", "2024-02", "--to", "2024-12-31"}), (Names{"linalool", "vanillin"}));
    EXPECT_EQ(listed({"--substructure", "c[CX3H1]=O"}), (Names{"vanillin"}));
    EXPECT_EQ(listed({"--substructure", "[OX2H]", "--technique", "gc", "--mass", "153:"}),
              (Names{"linalool"}));
}

TEST_F(ExportTest, ShowIsNarrowedByTheSameFilters) {
    const auto values = [&](std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), {"--json", "show"});
        return cospot(std::move(arguments)).lines().size() - 1;
    };
    EXPECT_EQ(values({"vanillin"}), 2U);
    EXPECT_EQ(values({"vanillin", "--technique", "gc"}), 1U);
    EXPECT_EQ(values({"vanillin", "--system", "rp"}), 0U);
    EXPECT_EQ(values({"vanillin", "--to", "2024-01"}), 1U);
    EXPECT_EQ(values({"vanillin", "--from", "2024-02"}), 1U);
    EXPECT_EQ(values({"wax"}), 2U);
    EXPECT_EQ(values({"wax", "--name", "lin"}), 2U); // vanillin and linalool
    EXPECT_EQ(values({"wax", "--name", "lina"}), 1U);
    EXPECT_EQ(values({"wax", "--substructure", "c1ccccc1"}), 1U);
    EXPECT_EQ(values({"wax", "--mass", "153:"}), 1U);
}

TEST_F(ExportTest, AListCutsNothing) {
    const std::string name = "a system whose name says all of its conditions at great length";
    ASSERT_EQ(cospot({"learn", "--systems",
                      file("long.csv", "system,technique,mobile_phase\n" + name +
                                           ",tlc,1-butanol:acetic acid:water 4:1:5\n")})
                  .code,
              kDone);
    const std::string out = cospot({"list", "systems"}).out;
    expect_fits_screen(out);
    for (const char *word : {"4 systems.", "length", "1-butanol", "4:1:5", "60:40", "isocratic"}) {
        EXPECT_HOLDS(out, word);
    }
}

TEST_F(ExportTest, ShowSaysHowManyValuesAreLeftOut) {
    EXPECT_HOLDS(cospot({"show", "wax", "--name", "lina"}).out,
                 "2 values of 2 compounds; 1 of them here, from 1 independent run\n");
    EXPECT_HOLDS(cospot({"show", "vanillin", "--technique", "hplc"}).out,
                 "0 values on 0 systems.\n");
    EXPECT_HOLDS(cospot({"show", "vanillin"}).out,
                 "2 values on 2 systems, from 2 independent runs\n");
    ASSERT_EQ(cospot({"show", "wax", "--report", path("wax.csv")}).code, kDone);
    EXPECT_HOLDS(content("wax.csv"), ",linalool,wax,RI,1547,,g1,2024-03,,GC 2,");
}

TEST_F(ExportTest, FaultyFiltersAreUsageErrors) {
    for (const Names &arguments :
         {Names{"--technique", "magic"}, Names{"--mass", "150"}, Names{"--mass", "a:b"},
          Names{"--from", "yesterday"}, Names{"--substructure", "C(("}, Names{"plates"}}) {
        Names all{"list"};
        all.insert(all.end(), arguments.begin(), arguments.end());
        EXPECT_EQ(cospot(all).code, kBadInput) << arguments.back();
    }
}

TEST_F(ExportTest, CsvReadBackMakesTheSameLibrary) {
    Names files;
    for (const char *what : {"systems", "compounds", "values"}) {
        files.push_back((folder_ / (std::string(what) + ".out.csv")).string());
        ASSERT_EQ(cospot({"export", what, "--output", files.back()}).code, kDone);
    }
    with_library("copy.db", {"init"});
    const Outcome learned =
        with_library("copy.db", {"learn", "--systems", files[0], files[1], files[2]});
    ASSERT_EQ(learned.code, kDone) << learned.err;
    for (const char *what : {"systems", "compounds", "values"}) {
        for (const char *format : {"csv", "json"}) {
            EXPECT_EQ(with_library("copy.db", {"export", what, "--format", format}).out,
                      cospot({"export", what, "--format", format}).out)
                << what;
        }
    }
}

/// The recipe of the help, done as it is written: `export WHAT > FILE` and the rest, one by one.
TEST_F(ExportTest, TheRecipeOfTheHelpMakesTheSameLibrary) {
    const std::string help = cospot({"export", "--help"}).out;
    std::istringstream lines(help.substr(0, help.find("Options")));
    ASSERT_EQ(cospot({"learn", file("runs.csv", "column,silica_g,compound,Rf,start_mL,end_mL\n"
                                                "blue 12,12,ketone,0.52,38,66\n")})
                  .code,
              kDone);
    std::size_t steps = 0;
    for (std::string line; std::getline(lines, line);) {
        std::istringstream parts(line);
        for (std::string part; line.starts_with("  cospot ") && std::getline(parts, part, ';');) {
            std::istringstream words(part);
            Names arguments;
            for (std::string word; words >> word;) {
                const bool is_file = word.ends_with(".csv") || word.ends_with(".db");
                arguments.push_back(is_file ? path(word) : word);
            }
            std::string output;
            if (arguments.size() > 3 && arguments[arguments.size() - 2] == ">") {
                output = arguments.back();
                arguments.resize(arguments.size() - 2);
            }
            arguments.erase(arguments.begin()); // "cospot"
            const Outcome outcome = cospot(arguments);
            ASSERT_EQ(outcome.code, kDone) << part << outcome.err;
            if (!output.empty()) {
                std::ofstream(output, std::ios::binary) << outcome.out;
            }
            ++steps;
        }
    }
    EXPECT_EQ(steps, 7U) << help;
    for (const char *what : {"systems", "compounds", "values", "responses", "columns"}) {
        EXPECT_EQ(with_library("copy.db", {"export", what}).out, cospot({"export", what}).out);
    }
}

TEST_F(ExportTest, FurtherNamesMayHoldBarsAndBackslashes) {
    const Names names{"a|b", "back\\slash", "\\", "single\\x", "end\\", "|"};
    std::string rows = "compound,smiles,system,quantity,value\n";
    for (const std::string &name : names) { // further names of one structure
        rows += name + ",CCCC,wax,RI,400\n";
    }
    ASSERT_EQ(cospot({"learn", file("names.csv", rows)}).code, kDone);
    const std::string table = (folder_ / "c.csv").string();
    ASSERT_EQ(cospot({"export", "compounds", "--output", table}).code, kDone);
    with_library("copy.db", {"init"});
    const Outcome learned = with_library("copy.db", {"learn", table});
    ASSERT_EQ(learned.code, kDone) << learned.err;
    for (const std::string &name : names) {
        EXPECT_EQ(with_library("copy.db", {"show", name}).code, kDone) << name;
    }
    EXPECT_EQ(with_library("copy.db", {"export", "compounds"}).out,
              cospot({"export", "compounds"}).out);
}

TEST_F(ExportTest, SpreadsheetFormulasAreDisarmedAndReadBack) {
    const Outcome exported = cospot({"export", "compounds"});
    EXPECT_NE(exported.out.find("\n'=HYPERLINK,"), std::string::npos) << exported.out;
    EXPECT_NE(cospot({"export", "values"}).out.find("'-1 note"), std::string::npos);
}

TEST_F(ExportTest, SdfKeepsStructuresAndNames) {
    const std::string sdf = (folder_ / "c.sdf").string();
    ASSERT_EQ(cospot({"export", "compounds", "--format", "sdf", "--output", sdf}).code, kDone);
    with_library("copy.db", {"init"});
    const Outcome learned = with_library("copy.db", {"learn", sdf});
    ASSERT_EQ(learned.code, kDone) << learned.err;
    const auto copies = with_library("copy.db", {"--json", "list"}).lines();
    const auto originals = cospot({"--json", "list"}).lines();
    ASSERT_EQ(copies.size(), originals.size());
    for (std::size_t i = 0; i < copies.size(); ++i) {
        EXPECT_EQ(copies[i]["compound"], originals[i]["compound"]);
        EXPECT_EQ(copies[i]["inchikey"], originals[i]["inchikey"]);
        EXPECT_EQ(copies[i]["cas"], originals[i]["cas"]);
    }
}

TEST_F(ExportTest, NamesThatCannotBeSdfTitlesAreReplaced) {
    const std::string odd = file("odd.csv", "compound,smiles\n$$$$,CCCO\nbell,CCCCO\n");
    ASSERT_EQ(cospot({"learn", odd}).code, kDone);
    library::Database(folder_ / "library.db",
                      library::Access::write) // a name that older programs took
        .execute("UPDATE compound SET name = 'be' || char(7) || 'll' WHERE name = 'bell'");
    const Outcome exported = cospot({"export", "compounds", "--format", "sdf"});
    ASSERT_EQ(exported.code, kDone) << exported.err;
    EXPECT_NE(exported.err.find("2 compounds have the InChIKey as title"), std::string::npos);
    const std::string &text = exported.out;
    EXPECT_NE(text.find("BDERNNFJNOPAEC-UHFFFAOYSA-N\n"), std::string::npos); // propan-1-ol
    EXPECT_NE(text.find("LRHPLDYGYMQRHN-UHFFFAOYSA-N\n"), std::string::npos); // butan-1-ol
    EXPECT_NE(text.find("\nvanillin\n"), std::string::npos);
    with_library("copy.db", {"init"});
    const Outcome learned = with_library("copy.db", {"learn", file("c.sdf", text)});
    EXPECT_EQ(learned.code, kDone) << learned.err;
}

TEST_F(ExportTest, ExportNeverOverwrites) {
    const std::string existing = file("mine.csv", "precious");
    EXPECT_EQ(cospot({"export", "values", "--output", existing}).code, kBadInput);
    std::ifstream in(existing);
    std::string content;
    std::getline(in, content);
    EXPECT_EQ(content, "precious");
    EXPECT_EQ(cospot({"export", "values", "--format", "sdf"}).code, kBadInput);
    EXPECT_EQ(cospot({"export", "everything"}).code, kBadInput);
}

} // namespace
} // namespace cospot
