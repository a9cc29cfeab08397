// What comes from the user stays text, whatever it says.
#include "document/html.h"
#include "report/report.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

constexpr const char *kScript = "</script><script>alert(1)</script>";

Report hostile_report() {
    Report report;
    report.trace = {.verb = "identify",
                    .arguments = {"it's " + std::string(kScript)},
                    .library = InputTrace{kScript, std::string(64, '0')},
                    .version = "0",
                    .date_utc = "2026-01-02T03:04:05Z",
                    .inputs = {{kScript, ""}}};
    report.notes = {kScript};
    report.results.push_back({{"name", kScript}, {"formula", "=HYPERLINK(\"x\")"}});
    return report;
}

Document hostile_document() {
    Document document{.title = kScript, .lead = kScript};
    document.blocks.emplace_back(Paragraph{kScript});
    document.data.columns = {"name", "formula", "sum", "at", "minus", "number", "none"};
    document.data.rows.push_back({std::string(kScript),
                                  std::string("=HYPERLINK(\"x\")"),
                                  std::string("+1+1"),
                                  std::string("@SUM(A1)"),
                                  std::string("-2+3"),
                                  -2.5,
                                  {}});
    return document;
}

std::size_t count(const std::string &text, std::string_view part) {
    std::size_t found = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
        ++found;
    }
    return found;
}

TEST(Html, EscapesWhatElementsAndAttributesCannotHold) {
    EXPECT_EQ(html::escaped("<b> & \"c\" 'd'"), "&lt;b&gt; &amp; &quot;c&quot; &#39;d&#39;");
    EXPECT_EQ(html::escaped("naïve ° 2-naphthol"), "naïve ° 2-naphthol");
}

TEST(Html, EscapesBrokenUtf8AndMarksThatTurnWriting) {
    EXPECT_EQ(html::escaped("a\xFF"), "a\\xFF");
    EXPECT_EQ(html::escaped("a\xE2\x80\xAE"
                            "b"),
              "a\\u202Eb");
    EXPECT_EQ(html::escaped(std::string("a\0b", 3)), "a\\u0000b");
}

TEST(Page, HoldsNoScriptButItsOwn) {
    const std::string page = report_text(hostile_report(), ReportFormat::html, hostile_document());
    EXPECT_EQ(count(page, "<script"), 2U); // data and page.js
    EXPECT_EQ(count(page, "</script"), 2U);
    EXPECT_EQ(count(page, "alert(1)</"), 0U);
    EXPECT_NE(page.find("&lt;/script&gt;&lt;script&gt;alert(1)"), std::string::npos);
}

TEST(Page, EmbedsTheReportAsDataThatReadsBack) {
    const Report report = hostile_report();
    const std::string page = report_text(report, ReportFormat::html, hostile_document());
    constexpr std::string_view open = "<script type=\"application/json\" id=\"report\">";
    const std::size_t begin = page.find(open) + open.size();
    const Json read = Json::parse(page.substr(begin, page.find("</script>", begin) - begin));
    EXPECT_EQ(read.at("results"), report.results);
    EXPECT_EQ(read.at("trace").at("inputs")[0].at("name"), kScript);
    EXPECT_TRUE(read.at("trace").at("inputs")[0].at("sha256").is_null());
}

TEST(Page, AsksForNothingFromOutside) {
    const std::string page = report_text(hostile_report(), ReportFormat::html, hostile_document());
    EXPECT_NE(page.find("Content-Security-Policy"), std::string::npos);
    EXPECT_NE(page.find("default-src 'none'"), std::string::npos);
    for (const char *outside : {"src=\"http", "href=\"http", "@import", "url(http", "url(//"}) {
        EXPECT_EQ(page.find(outside), std::string::npos) << outside;
    }
}

TEST(CsvReport, KeepsTextFromRunningInASpreadsheet) {
    const std::string text = report_text(hostile_report(), ReportFormat::csv, hostile_document());
    EXPECT_NE(text.find("\"'=HYPERLINK(\"\"x\"\")\""), std::string::npos) << text;
    EXPECT_NE(text.find(",'+1+1,'@SUM(A1),'-2+3,-2.5,\n"), std::string::npos) << text;
}

TEST(JsonReport, HoldsTraceAndResults) {
    const Report report = hostile_report();
    const Json read = Json::parse(report_text(report, ReportFormat::json, hostile_document()));
    EXPECT_EQ(read.at("results"), report.results);
    EXPECT_EQ(read.at("trace").at("verb"), "identify");
    EXPECT_EQ(read.at("trace").at("date_utc"), "2026-01-02T03:04:05Z");
}

TEST(Html, TablesLoseColumnsWithoutContent) {
    html::Table table;
    table.columns = {{"a"}, {"b"}, {"c"}};
    table.heading_column = 2;
    table.rows = {{{{"1"}, {}, {"x"}}}, {{{}, {}, {"y"}}}};
    const html::Table kept = html::without_empty_columns(table);
    ASSERT_EQ(kept.columns.size(), 2U);
    EXPECT_EQ(kept.columns[1].title, "c");
    EXPECT_EQ(kept.heading_column, 1U);
    EXPECT_EQ(kept.rows[1].cells[1].content, "y");
}

TEST(Html, APageOfACommandThatOpensNoLibraryNamesNone) {
    Report report = hostile_report();
    EXPECT_NE(report_text(report, ReportFormat::html, hostile_document()).find("<dt>Library</dt>"),
              std::string::npos);
    report.trace.library.reset();
    EXPECT_EQ(report_text(report, ReportFormat::html, hostile_document()).find("<dt>Library</dt>"),
              std::string::npos);
    EXPECT_TRUE(Json::parse(report_text(report, ReportFormat::json, hostile_document()))
                    .at("trace")
                    .at("library")
                    .is_null());
}

} // namespace
} // namespace cospot
