// Tables on a terminal: what is too wide for it.
#include "document/terminal_table.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

/// A row with a name and `count` numbers below titles of 14 columns.
Table wide_table(std::size_t count) {
    Table table{.label = "Per cent", .columns = {{"Compound"}}, .rows = {{{{"butylparaben"}}}}};
    for (std::size_t i = 0; i < count; ++i) {
        table.columns.push_back({"batch_2026-00" + std::to_string(i), true});
        table.rows[0].cells.push_back({std::to_string(90 + i)});
    }
    return table;
}

std::string text_of(const Table &table) {
    return table_text(table, natural_widths({&table}), 80, Style{}, true);
}

TEST(TerminalTable, NumbersThatDoNotFitSideBySideComeInParts) {
    EXPECT_EQ(text_of(wide_table(5)),
              "Compound      batch_2026-000  batch_2026-001  batch_2026-002  batch_2026-003\n"
              "butylparaben              90              91              92              93\n"
              "\n"
              "Compound      batch_2026-004\n"
              "butylparaben              94\n");
}

TEST(TerminalTable, OneNumberTooWideForALineIsPrintedAfterItsTitle) {
    Table table = wide_table(2);
    table.rows[0].cells[1].text = std::string(90, '1');
    const std::string text = text_of(table);
    EXPECT_NE(text.find("batch_2026-001: 91"), std::string::npos) << text;
}

TEST(TerminalTable, AnEmptyColumnTakesNoRoom) {
    Table table = wide_table(2);
    table.rows[0].cells[1].text.clear();
    EXPECT_EQ(text_of(table), "Compound      batch_2026-001\nbutylparaben              91\n");
}

} // namespace
} // namespace cospot
