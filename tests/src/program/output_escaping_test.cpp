// Names that look like markup, formulas or control sequences stay names, whatever is printed.
#include "hostile_laboratory.h"
#include "library_state.h"
#include "page_markup.h"
#include "program_fixture.h"

#include "library/database.h"
#include "shared/csv.h"
#include "shared/number.h"
#include "shared/text.h"

namespace cospot {
namespace {

namespace fs = std::filesystem;

Words plain_names() {
    Words names;
    for (std::size_t i = 0; i < kHostileNames.size(); ++i) {
        names.push_back("compound " + std::to_string(i + 1));
    }
    return names;
}

/// The same names, with others for those that `learn` takes no more: older programs took them.
Words visible_names() {
    Words names = kHostileNames;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (!is_printable(names[i])) {
            names[i] = "older program's " + std::to_string(i) + ".";
        }
    }
    return names;
}

/// Gives a library the names that an older program took.
void rename_as_older_programs_did(const std::string &library) {
    library::Database database(library, library::Access::write);
    const Words visible = visible_names();
    for (const char *table : {"compound", "synonym", "system"}) {
        for (std::size_t i = 0; i < visible.size(); ++i) {
            library::Statement rename = database.prepare("UPDATE " + std::string(table) +
                                                         " SET name = replace(name, ?1, ?2)");
            rename.bind(1, visible[i]).bind(2, kHostileNames[i]).run();
        }
    }
}

class OutputEscapingTest : public ProgramTest {
protected:
    OutputEscapingTest() {
        EXPECT_EQ(with(hostile_, {"init"}).code, kDone);
        const Laboratory visible(folder_ / "hostile", visible_names());
        const Outcome learned = with(hostile_, visible.learning());
        EXPECT_NE(learned.code, kBadInput) << learned.err;
        rename_as_older_programs_did(hostile_.path("l.db"));
    }

    Outcome with(const Laboratory &laboratory, Words arguments, const char *format = "") const {
        if (*format != '\0') {
            arguments.insert(arguments.begin(), format);
        }
        arguments.insert(arguments.begin(), {"--library", laboratory.path("l.db")});
        return cospot(arguments);
    }

    /// The report of one command in that format.
    [[nodiscard]] std::string report(const Laboratory &laboratory, Words arguments,
                                     const std::string &ending) const {
        const std::string name = laboratory.path("report" + ending);
        fs::remove(name);
        arguments.insert(arguments.end(), {"--report", name});
        const Outcome outcome = with(laboratory, arguments);
        EXPECT_NE(outcome.code, kBadInput) << arguments.front() << ": " << outcome.err;
        return bytes_of(name);
    }

    const Laboratory hostile_{folder_ / "hostile", kHostileNames};
};

/// The first place in a text that steers a terminal or the direction of writing, with what stands
/// before it; else "". Only the program itself begins new lines.
std::string steering_in(const std::string &text) {
    if (text.find("two\nlines") != std::string::npos) {
        return "a name over two lines";
    }
    const auto byte = [&](std::size_t at) {
        return at < text.size() ? static_cast<unsigned char>(text[at]) : 0U;
    };
    for (std::size_t at = 0; at < text.size(); ++at) {
        const bool is_control = (byte(at) < 0x20 && text[at] != '\n') || byte(at) == 0x7F;
        const bool is_second_control = byte(at) == 0xC2 && byte(at + 1) <= 0x9F;
        const bool turns =
            byte(at) == 0xE2 &&
            ((byte(at + 1) == 0x80 && byte(at + 2) >= 0xA8 && byte(at + 2) <= 0xAE) ||
             (byte(at + 1) == 0x81 && byte(at + 2) >= 0xA6 && byte(at + 2) <= 0xA9));
        if (is_control || is_second_control || turns) {
            return fmt::format("byte {:#04x} behind: {}", byte(at),
                               text.substr(at < 60 ? 0 : at - 60, std::min<std::size_t>(at, 60)));
        }
    }
    return "";
}

TEST_F(OutputEscapingTest, NoCommandSteersTheTerminal) {
    std::vector<Words> commands = hostile_.printing();
    for (Words &command : hostile_.reporting()) {
        commands.push_back(command);
    }
    for (const Words &command : commands) {
        const Outcome outcome = with(hostile_, command);
        EXPECT_NE(outcome.code, kBadInput) << command.front() << outcome.err;
        EXPECT_EQ(steering_in(outcome.out), "") << command.front() << '\n' << outcome.out;
        EXPECT_EQ(steering_in(outcome.err), "") << command.front() << '\n' << outcome.err;
    }
}

TEST_F(OutputEscapingTest, MessagesDoNotSteerTheTerminal) {
    for (const std::string &name : kHostileNames) {
        const std::vector<Words> commands{
            {"show", name + "?"},
            {name},
            {"list", "--technique", name},
            {"identify", hostile_.path(name)},
            {"identify", hostile_.file("u.csv", csv_field(name) + ",b\n1,2\n")},
            {"identify", hostile_.file("v.csv", "sample,feature,system,quantity,value\na,b," +
                                                    csv_field(name) + ",Rf,0.3\n")},
            {"learn", hostile_.file("w.csv", "compound,smiles,system,quantity,value\nx," +
                                                 csv_field(name) + ",s,Rf,0.3\n")},
            {"learn", "--create-systems",
             hostile_.file("x.csv", "compound,smiles,system,quantity,value\nz,CCN," +
                                        csv_field(name) + ",Rf," + csv_field(name) + "x\n")},
            {"retire", "--system", name, "--reason", name},
            {"merge", hostile_.path(name)}};
        for (const Words &command : commands) {
            const Outcome outcome = with(hostile_, command);
            EXPECT_EQ(outcome.code, kBadInput) << command.front() << outcome.out;
            EXPECT_EQ(steering_in(outcome.err), "") << command.front() << '\n' << outcome.err;
        }
    }
}

TEST_F(OutputEscapingTest, FindingsAndRemarksDoNotSteerTheTerminal) {
    const Laboratory other(folder_ / "other", kHostileNames);
    ASSERT_EQ(with(other, {"init"}).code, kDone);
    std::string rows = "compound,smiles,system,quantity,value\n";
    for (const std::string &name : visible_names()) { // other structures of the same names
        rows += csv_field(name) + "," + std::string(rows.size() % 40 + 1, 'C') + "N," +
                csv_field(kHostileNames[0] + "1") + ",RI,500\n";
    }
    for (const Words &command :
         {Words{"learn", "--accept", "--create-systems", other.file("o.csv", rows)},
          Words{"merge", hostile_.path("l.db")}, Words{"audit"}, Words{"list"},
          Words{"merge", "--rename-conflicts", hostile_.path("l.db")}, Words{"list", "systems"}}) {
        const Outcome outcome = with(other, command);
        EXPECT_NE(outcome.code, kBadInput) << outcome.err;
        EXPECT_EQ(steering_in(outcome.out), "") << command.front() << '\n' << outcome.out;
        EXPECT_EQ(steering_in(outcome.err), "") << command.front() << '\n' << outcome.err;
    }
}

/// A page without its report as data, which is no markup.
std::string without_data(const std::string &page) {
    const std::size_t begin = page.find("<script type=\"application/json\"");
    const std::size_t end = page.find("</script>", begin);
    return begin == std::string::npos ? page : page.substr(0, begin) + page.substr(end + 9);
}

TEST_F(OutputEscapingTest, PagesHaveTheMarkupOfPagesWithPlainNames) {
    const Laboratory plain(folder_ / "plain", plain_names());
    ASSERT_EQ(with(plain, {"init"}).code, kDone);
    ASSERT_NE(with(plain, plain.learning()).code, kBadInput);
    std::size_t names_shown = 0;
    for (std::size_t i = 0; i < hostile_.reporting().size(); ++i) {
        const Words command = hostile_.reporting()[i];
        SCOPED_TRACE(command.front());
        const std::string page = report(hostile_, command, ".html");
        const PageMarkup markup(page);
        const PageMarkup plain_markup(report(plain, plain.reporting()[i], ".html"));
        for (const std::string &name : markup.names()) {
            EXPECT_EQ(plain_markup.names().count(name), 1U) << name;
        }
        EXPECT_EQ(markup.names().count("broken"), 0U);
        EXPECT_EQ(markup.links(), std::set<std::string>{});
        EXPECT_NE(page.find("http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';"),
                  std::string::npos);
        EXPECT_EQ(steering_in(without_data(page)), "");
        names_shown += page.find("&lt;script&gt;alert(1)") != std::string::npos ? 1 : 0;

        const std::size_t begin = page.find('>', page.find("application/json")) + 1;
        const auto data =
            nlohmann::json::parse(page.substr(begin, page.find("</script>", begin) - begin));
        EXPECT_FALSE(data.at("results").is_null());
    }
    EXPECT_GE(names_shown, 8U);
}

bool is_number(const std::string &text) {
    try {
        (void)parse_number(text, {}, "");
        return true;
    } catch (const InputError &) {
        return false;
    }
}

/// Cells that a spreadsheet would compute.
Words formulas_in(const std::string &table) {
    Words formulas;
    std::istringstream in(table);
    CsvReader reader(in, "table");
    while (reader.next()) {
        for (const std::string &field : reader.fields()) {
            if (!field.empty() && std::string("=+-@\t\r\n").find(field[0]) != std::string::npos &&
                !is_number(field)) {
                formulas.push_back(field);
            }
        }
    }
    return formulas;
}

TEST_F(OutputEscapingTest, TablesHoldNoFormulas) {
    for (const Words &command : hostile_.reporting()) {
        SCOPED_TRACE(command.front());
        const std::string table = report(hostile_, command, ".csv");
        EXPECT_FALSE(table.empty());
        EXPECT_EQ(formulas_in(table), Words{});
    }
    const std::string runs = hostile_.file(
        "runs.csv", "column,silica_g,compound,Rf,start_mL,end_mL,note\n=1+1,12,+c,0.5,9,12,@n\n");
    EXPECT_EQ(with(hostile_, {"learn", runs}).code, kDone);
    for (const char *what : {"values", "compounds", "systems", "responses", "columns"}) {
        EXPECT_EQ(formulas_in(with(hostile_, {"export", what}).out), Words{}) << what;
    }
    const std::string faulty = hostile_.file(
        "f.csv", "compound,smiles,system,quantity,value,note\n=1+1,CCO,+s,Rf,x,@note\n");
    EXPECT_EQ(with(hostile_, {"learn", "--partial", faulty}).code, kNeedsAttention);
    EXPECT_EQ(formulas_in(bytes_of(faulty + ".refused.csv")), Words{});
}

TEST_F(OutputEscapingTest, JsonKeepsEveryName) {
    for (const Words &command : hostile_.reporting()) {
        EXPECT_TRUE(nlohmann::json::accept(report(hostile_, command, ".json")));
        EXPECT_NO_THROW((void)with(hostile_, command, "--json").lines()) << command.front();
    }
    std::set<std::string> names;
    for (const auto &line : with(hostile_, {"list"}, "--json").lines()) {
        names.insert(line.at("compound"));
    }
    EXPECT_EQ(names, std::set<std::string>(kHostileNames.begin(), kHostileNames.end()));
}

TEST_F(OutputEscapingTest, WhatIsExportedReadsBackTheVerySame) {
    const Laboratory original(folder_ / "original", visible_names());
    const Laboratory copy(folder_ / "copy", visible_names());
    ASSERT_EQ(with(original, {"init"}).code, kDone);
    ASSERT_NE(with(original, original.learning()).code, kBadInput);
    Words files;
    for (const char *what : {"systems", "compounds", "values"}) {
        files.push_back(copy.path(std::string(what) + ".csv"));
        ASSERT_EQ(with(original, {"export", what, "--output", files.back()}).code, kDone);
    }
    ASSERT_EQ(with(copy, {"init"}).code, kDone);
    const Outcome learned =
        with(copy, {"learn", "--accept", "--systems", files[0], files[1], files[2]});
    ASSERT_NE(learned.code, kBadInput) << learned.err;
    for (const char *what : {"systems", "compounds", "values"}) {
        EXPECT_EQ(with(copy, {"export", what, "--format", "json"}).out,
                  with(original, {"export", what, "--format", "json"}).out)
            << what;
    }
}

TEST_F(OutputEscapingTest, NamesWithInvisibleCharactersAreRefused) {
    const std::string before = with(hostile_, {"list"}, "--json").out;
    for (const std::string name : {"eth\xE2\x80\x8B"
                                   "anol",
                                   "a\x1B[31m", "left\xE2\x80\xAEright"}) {
        const std::string rows =
            "compound,smiles,system,quantity,value\n" + name + ",CCO,s,Rf,0.3\n";
        const Outcome outcome =
            with(hostile_, {"learn", "--create-systems", hostile_.file("n.csv", rows)});
        EXPECT_EQ(outcome.code, kBadInput);
        EXPECT_NE(outcome.err.find("n.csv:2, column compound"), std::string::npos) << outcome.err;
    }
    EXPECT_EQ(with(hostile_, {"list"}, "--json").out, before);
}

TEST_F(OutputEscapingTest, RefusedRowsReadBackTheVerySame) {
    std::string rows = "compound,smiles,system,quantity,value\n";
    for (const std::string &name : kHostileNames) {
        rows += csv_field(name) + ",CCO,t,Rf,much\n";
    }
    const std::string faulty = hostile_.file("f.csv", rows);
    ASSERT_EQ(with(hostile_, {"learn", "--partial", faulty}).code, kNeedsAttention);
    std::istringstream in(bytes_of(faulty + ".refused.csv"));
    CsvReader reader(in, "refused");
    ASSERT_TRUE(reader.next());
    for (const std::string &name : kHostileNames) {
        ASSERT_TRUE(reader.next());
        EXPECT_EQ(without_guard(reader.fields()[0]), name);
    }
}

} // namespace
} // namespace cospot
