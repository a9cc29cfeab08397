// The bar of a share is filled by the share, and says it.
#include "drawing/share_bar.h"
#include "svg_texts.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

TEST(ShareBar, IsFilledByTheShareAndSaysIt) {
    const std::string svg = share_bar(0.25, "<&\"'>]]>");
    const double whole = attributes_of(share_bar(1.0, ""), "filled", "width").front();
    EXPECT_NEAR(attributes_of(svg, "filled", "width").front() / whole, 0.25, 1e-9);
    EXPECT_EQ(attributes_of(share_bar(7.0, ""), "filled", "width").front(), whole);
    EXPECT_EQ(elements_of(svg, "rect", "frame"), 1U);
}

} // namespace
} // namespace cospot
