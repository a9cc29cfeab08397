#include "drawing/reliability_picture.h"

#include "drawing/svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr double kSide = 340.0; ///< of the square of the diagram
constexpr double kReliabilityLeft = 58.0;
constexpr double kReliabilityTop = 16.0;
constexpr double kCountsTop = kReliabilityTop + kSide + 62.0;
constexpr double kCountsHeight = 64.0;
constexpr double kReliabilityBottom = kCountsTop + kCountsHeight;
constexpr double kReliabilityWidth = kReliabilityLeft + kSide + 26.0;
constexpr double kMark = 4.5; ///< half the size of a mark

double x_of(double share) {
    return kReliabilityLeft + kSide * share;
}

double y_of(double share) {
    return kReliabilityTop + kSide * (1.0 - share);
}

std::string frame() {
    std::string svg;
    for (int i = 0; i <= 5; ++i) {
        const double share = i / 5.0;
        const std::string label = fmt::format("{}", 20 * i);
        svg +=
            svg::line(kReliabilityLeft, y_of(share), kReliabilityLeft + kSide, y_of(share), "grid");
        svg +=
            svg::line(x_of(share), kReliabilityTop, x_of(share), kReliabilityTop + kSide, "grid");
        svg += svg::text(kReliabilityLeft - 8, y_of(share) + 4, "end", label, "tick");
        svg += svg::text(x_of(share), kReliabilityTop + kSide + 18, "middle", label, "tick");
    }
    svg += svg::line(x_of(0), y_of(0), x_of(1), y_of(1), "diagonal");
    svg += svg::text(kReliabilityLeft + kSide / 2, kReliabilityTop + kSide + 37, "middle",
                     "stated probability, %", "tick");
    svg += fmt::format(R"x(<text transform="translate(14 {}) rotate(-90)" text-anchor="middle" )x"
                       R"x(class="tick">right, %</text>)x",
                       svg::number(kReliabilityTop + kSide / 2));
    return svg + '\n';
}

/// Standard error of a share of `count` independent answers.
double standard_error(const DrawnBin &bin) {
    return std::sqrt(bin.right * (1.0 - bin.right) / static_cast<double>(bin.count));
}

std::string as_stated_svg(const std::vector<DrawnBin> &bins) {
    std::string svg;
    for (const DrawnBin &bin : bins) {
        svg += fmt::format(R"(<circle cx="{}" cy="{}" r="{}" class="ring"/>)",
                           svg::number(x_of(bin.stated)), svg::number(y_of(bin.right)), kMark);
    }
    return svg;
}

std::string corrected_svg(const std::vector<DrawnBin> &bins) {
    std::string path;
    std::string svg;
    for (const DrawnBin &bin : bins) {
        const double x = x_of(bin.stated);
        path += fmt::format("{}{} {}", path.empty() ? "M" : "L", svg::number(x),
                            svg::number(y_of(bin.right)));
        const double reach = 2 * standard_error(bin);
        svg += svg::line(x, y_of(std::min(1.0, bin.right + reach)), x,
                         y_of(std::max(0.0, bin.right - reach)), "whisker");
        svg += svg::rectangle(x - kMark, y_of(bin.right) - kMark, 2 * kMark, 2 * kMark, "square");
    }
    return fmt::format(R"(<path d="{}" class="joined"/>)", path) + svg + '\n';
}

/// On a scale of roots, since most statements are improbable ones.
std::string counts_svg(const std::vector<DrawnBin> &bins) {
    std::size_t most = 1;
    for (const DrawnBin &bin : bins) {
        most = std::max(most, bin.count);
    }
    std::string svg = svg::line(kReliabilityLeft, kReliabilityBottom, kReliabilityLeft + kSide,
                                kReliabilityBottom, "axis");
    for (const DrawnBin &bin : bins) {
        const double height = (kCountsHeight - 14) *
                              std::sqrt(static_cast<double>(bin.count) / static_cast<double>(most));
        const double slot = std::min(9.0, std::floor(bin.stated * 10));
        const double x = x_of(slot / 10);
        svg += svg::rectangle(x + 4, kReliabilityBottom - height, kSide / 10 - 8, height, "count");
        svg += svg::text(x + kSide / 20, kReliabilityBottom - height - 3, "middle",
                         fmt::format("{}", bin.count), "tick");
    }
    return svg + svg::text(kReliabilityLeft - 8, kReliabilityBottom, "end", "n", "tick") + '\n';
}

} // namespace

std::string reliability_picture(const std::vector<DrawnBin> &as_stated,
                                const std::vector<DrawnBin> &corrected, const std::string &title) {
    return svg::begin(kReliabilityWidth, kReliabilityBottom + 8, "reliability", title,
                      "Stated probability against the share that was right; the table says the "
                      "same in numbers.") +
           frame() + as_stated_svg(as_stated) + corrected_svg(corrected) + counts_svg(corrected) +
           std::string(svg::kEnd);
}

} // namespace cospot
