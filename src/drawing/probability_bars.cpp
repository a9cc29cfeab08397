#include "drawing/probability_bars.h"

#include "document/html.h"
#include "document/probability_text.h"
#include "drawing/svg.h"

#include <fmt/format.h>

namespace cospot {

namespace {

constexpr double kWidth = 600.0;
constexpr double kHeight = 18.0;
constexpr double kLeastShown = 0.5; ///< pixels

} // namespace

std::string probability_bar(const std::vector<ProbabilityShare> &candidates, double other,
                            double unlisted, const std::string &title) {
    std::string words;
    std::string parts;
    double x = 0.0;
    const auto add = [&](const ProbabilityShare &share, const char *style) {
        const double width = kWidth * share.probability;
        const std::string text = share.name + ' ' + probability_text(share.probability);
        if (width >= kLeastShown) {
            parts += fmt::format("<g class=\"{}\"><title>{}</title>{}</g>", style,
                                 html::escaped(text), svg::rectangle(x, 1, width, kHeight - 2, ""));
            words += (words.empty() ? "" : ", ") + text;
        }
        x += width;
    };
    for (const ProbabilityShare &share : candidates) {
        add(share, "share");
    }
    add({"others", other}, "share other");
    add({"unlisted", unlisted}, "share unlisted");
    return svg::begin(kWidth, kHeight, "bar", title, words) + parts +
           svg::rectangle(0.5, 0.5, kWidth - 1, kHeight - 1, "frame") + std::string(svg::kEnd);
}

} // namespace cospot
