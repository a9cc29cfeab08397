#pragma once

#include <string_view>

namespace cospot {

/// Style and script of the pages that `page_html` and `page_part` make.
[[nodiscard]] std::string_view page_style();
/// It enlivens the page it is in, and defines `enliven(element)` for parts that come later.
[[nodiscard]] std::string_view page_script();

} // namespace cospot
