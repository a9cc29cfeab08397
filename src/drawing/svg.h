#pragma once

#include <string>
#include <string_view>

namespace cospot::svg {

/// A coordinate with two decimals at most, whatever the locale.
[[nodiscard]] std::string number(double value);

/// The start of a picture of its own size in pixels; `title` and `description` are plain text that
/// a screen reader says instead of the picture. Close it with kEnd.
[[nodiscard]] std::string begin(double width, double height, std::string_view style_class,
                                std::string_view title, std::string_view description);
inline constexpr std::string_view kEnd = "</svg>";

/// `anchor` is "start", "middle" or "end"; `content` is plain text.
[[nodiscard]] std::string text(double x, double y, std::string_view anchor,
                               std::string_view content, std::string_view style_class = "");

[[nodiscard]] std::string line(double x1, double y1, double x2, double y2,
                               std::string_view style_class);

[[nodiscard]] std::string rectangle(double x, double y, double width, double height,
                                    std::string_view style_class);

/// The start of a group that belongs to the table row of the same key; close it with kEndMark.
[[nodiscard]] std::string begin_mark(std::string_view key, std::string_view title,
                                     std::string_view style_class);
inline constexpr std::string_view kEndMark = "</g>";

/// The hatching that style classes fill with as url(#hatch); stands in <defs>, once a document.
inline constexpr std::string_view kHatchPattern =
    R"(<pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" )"
    R"x(patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="5"/></pattern>)x";

} // namespace cospot::svg
