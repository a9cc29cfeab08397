#include "readers/column_alias.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

TEST(ColumnAlias, IsColumnEqualsHeader) {
    const ColumnAlias alias = parse_column_alias("compound=Name = as printed", {});
    EXPECT_EQ(alias.column, "compound");
    EXPECT_EQ(alias.header, "Name = as printed");
}

TEST(ColumnAlias, IsRefusedWithoutOneOfThem) {
    for (const char *text : {"", "=", "compound", "compound=", "=Name"}) {
        EXPECT_THROW((void)parse_column_alias(text, {}), InputError) << text;
    }
}

} // namespace
} // namespace cospot
