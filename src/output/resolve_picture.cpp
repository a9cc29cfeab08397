#include "output/resolve_picture.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <vector>

namespace cospot {

namespace {

using namespace eluent_choice;

// All lengths in px of the picture.
constexpr double kWidth = 820.0;
constexpr double kLeft = 70.0;
constexpr double kRight = 790.0;
constexpr double kTop = 104.0;
constexpr double kBottom = 404.0;
constexpr double kBand = 22.0; // height of the band of critical pairs above the plot
constexpr double kBandGap = 10.0;
constexpr double kKeyLine = 20.0;
constexpr std::size_t kMostNamed = 12;

std::string escaped(std::string_view text) {
    std::string result;
    for (const char letter : printable(text)) {
        switch (letter) {
        case '&':
            result += "&amp;";
            break;
        case '<':
            result += "&lt;";
            break;
        case '>':
            result += "&gt;";
            break;
        case '"':
            result += "&quot;";
            break;
        default:
            result += letter;
        }
    }
    return result;
}

/// A stretch of the curve over which something stays the same: positions, both included.
struct Stretch {
    std::size_t first = 0;
    std::size_t last = 0;
};

template <typename Same>
std::vector<Stretch> stretches_of(const std::vector<CurvePoint> &curve, const Same &is_same) {
    std::vector<Stretch> stretches;
    for (std::size_t i = 0; i < curve.size(); ++i) {
        if (stretches.empty() || !is_same(curve[i - 1], curve[i])) {
            stretches.push_back({i, i});
        }
        stretches.back().last = i;
    }
    return stretches;
}

/// The pair whichever of the two leaves first.
Pair unordered(const CurvePoint &point) {
    return std::minmax(point.critical->first, point.critical->second);
}

/// The smallest of 1, 2, 5 times a power of ten that needs no more than `most` steps.
double round_step(double span, double most) {
    const double power = std::pow(10.0, std::floor(std::log10(span / most)));
    for (const double factor : {1.0, 2.0, 5.0}) {
        if (span / (factor * power) <= most) {
            return factor * power;
        }
    }
    return 10.0 * power;
}

/// Draws one answer.
class MapPicture {
public:
    explicit MapPicture(const Answer &answer)
        : answer_(&answer), curve_(&answer.choice.curve), low_(answer.choice.range.low),
          span_(std::max(answer.choice.range.high - answer.choice.range.low, 1e-6)) {
        double most = answer.question.resolution;
        for (const CurvePoint &point : *curve_) {
            most = std::max(most, point.resolution);
        }
        step_ = round_step(most, 6.0);
        top_ = step_ * std::ceil(most * 1.02 / step_);
    }

    std::string draw() {
        std::string body =
            window_gaps() + axes() + enough_line() + curve() + measured_marks() + best_mark();
        body += pair_band(); // finds the pairs that the key names
        body += key();
        const std::string title = "Resolution over the fraction of " + escaped(answer_->modifier);
        const CurvePoint &best = (*curve_)[answer_->choice.best];
        return fmt::format(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" "
            "width=\"{0:.0f}\" height=\"{1:.0f}\" role=\"img\" font-family=\"sans-serif\" "
            "font-size=\"14\" fill=\"#111\">\n<title>{2}</title>\n<desc>Best fraction {3:.3f} with "
            "resolution {4:.2f} of {5}.</desc>\n"
            "<defs><pattern id=\"out\" width=\"8\" height=\"8\" patternUnits=\"userSpaceOnUse\" "
            "patternTransform=\"rotate(45)\"><path d=\"M0 0V8\" stroke=\"#bbb\" "
            "stroke-width=\"2\"/></pattern></defs>\n"
            "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n"
            "<text x=\"{6}\" y=\"30\" font-size=\"18\" font-weight=\"bold\">{2}</text>\n"
            "<text x=\"{6}\" y=\"52\" fill=\"#444\">{7} compounds, plate number {8:.0f} "
            "({9})</text>\n{10}</svg>\n",
            kWidth, height_, title, best.fraction, best.resolution, pair_name(best), kLeft,
            answer_->question.compounds.size(), answer_->question.plate_number,
            escaped(answer_->plate_basis), body);
    }

private:
    [[nodiscard]] double x(double fraction) const {
        return kLeft + (kRight - kLeft) * (fraction - low_) / span_;
    }
    [[nodiscard]] double y(double resolution) const {
        return kBottom - (kBottom - kTop) * resolution / top_;
    }

    [[nodiscard]] std::string pair_name(const CurvePoint &point) const {
        const auto &compounds = answer_->question.compounds;
        return escaped(compounds[point.critical->first].name) + " / " +
               escaped(compounds[point.critical->second].name);
    }

    [[nodiscard]] std::string window_gaps() const {
        std::string text;
        for (const Stretch &stretch : stretches_of(*curve_, [](const auto &a, const auto &b) {
                 return (a.outside_window > 0) == (b.outside_window > 0);
             })) {
            if ((*curve_)[stretch.first].outside_window > 0) {
                const double left = x((*curve_)[stretch.first].fraction);
                const double right = x((*curve_)[stretch.last].fraction);
                text += fmt::format("<rect x=\"{:.1f}\" y=\"{}\" width=\"{:.1f}\" height=\"{}\" "
                                    "fill=\"url(#out)\"/>\n",
                                    left, kTop, std::max(right - left, 1.0), kBottom - kTop);
            }
        }
        return text;
    }

    [[nodiscard]] std::string axes() const {
        std::string text;
        for (double value = 0.0; value <= top_ + step_ / 2.0; value += step_) {
            text += fmt::format("<path d=\"M{} {:.1f}H{}\" stroke=\"#ddd\"/>"
                                "<text x=\"{}\" y=\"{:.1f}\" text-anchor=\"end\">{:g}</text>\n",
                                kLeft, y(value), kRight, kLeft - 8.0, y(value) + 5.0,
                                std::round(value * 1e6) / 1e6);
        }
        const double step = round_step(span_, 8.0);
        for (double value = std::ceil(low_ / step - 1e-9) * step; value <= low_ + span_ + 1e-9;
             value += step) {
            text += fmt::format("<path d=\"M{0:.1f} {1}v6\" stroke=\"#111\"/><text x=\"{0:.1f}\" "
                                "y=\"{2}\" text-anchor=\"middle\">{3:g}</text>\n",
                                x(value), kBottom, kBottom + 34.0, std::round(value * 1e6) / 1e6);
        }
        return text +
               fmt::format("<path d=\"M{0} {1}V{2}H{3}\" fill=\"none\" stroke=\"#111\"/>\n"
                           "<text x=\"{4}\" y=\"{5}\" text-anchor=\"middle\">volume fraction of "
                           "{6}</text>\n<text transform=\"translate(22 {7}) rotate(-90)\" "
                           "text-anchor=\"middle\">resolution of the critical pair</text>\n",
                           kLeft, kTop, kBottom, kRight, (kLeft + kRight) / 2.0, kBottom + 56.0,
                           escaped(answer_->modifier), (kTop + kBottom) / 2.0);
    }

    /// The label stands at the end where the curve is farther away.
    [[nodiscard]] std::string enough_line() const {
        const double enough = answer_->question.resolution;
        const bool is_left = std::abs(curve_->front().resolution - enough) >
                             std::abs(curve_->back().resolution - enough);
        return fmt::format("<path d=\"M{0} {1:.1f}H{2}\" stroke=\"#111\" "
                           "stroke-dasharray=\"2 4\"/>\n<text x=\"{3}\" y=\"{4:.1f}\" "
                           "text-anchor=\"{5}\" stroke=\"#fff\" stroke-width=\"4\" "
                           "paint-order=\"stroke\">enough: {6:g}</text>\n",
                           kLeft, y(enough), kRight, is_left ? kLeft + 6.0 : kRight - 6.0,
                           y(enough) - 6.0, is_left ? "start" : "end", enough);
    }

    /// Solid over the measured fractions, dashed beyond.
    [[nodiscard]] std::string curve() const {
        const FractionRange &measured = answer_->choice.measured;
        std::string text;
        for (const Stretch &stretch : stretches_of(*curve_, [&](const auto &a, const auto &b) {
                 return measured.holds(a.fraction) == measured.holds(b.fraction);
             })) {
            std::string points;
            const std::size_t before = stretch.first > 0 ? stretch.first - 1 : 0; // joins them
            for (std::size_t i = before; i <= stretch.last; ++i) {
                points += fmt::format("{:.1f},{:.1f} ", x((*curve_)[i].fraction),
                                      y((*curve_)[i].resolution));
            }
            const bool is_measured = measured.holds((*curve_)[stretch.first].fraction);
            text += fmt::format("<polyline points=\"{}\" fill=\"none\" stroke=\"#111\" "
                                "stroke-width=\"2.5\" stroke-linejoin=\"round\"{}/>\n",
                                points, is_measured ? "" : " stroke-dasharray=\"7 5\"");
        }
        return text;
    }

    [[nodiscard]] std::string measured_marks() const {
        std::set<double> fractions;
        for (const MeasuredCompound &compound : answer_->question.compounds) {
            for (const RetentionPoint &point : compound.points) {
                fractions.insert(point.fraction);
            }
        }
        std::string text;
        for (const double fraction : fractions) {
            if (answer_->choice.range.holds(fraction)) {
                text +=
                    fmt::format("<path d=\"M{:.1f} {}l-6 11h12z\"/>\n", x(fraction), kBottom + 2.0);
            }
        }
        return text;
    }

    [[nodiscard]] std::string best_mark() const {
        const CurvePoint &best = (*curve_)[answer_->choice.best];
        const double left = x(best.fraction);
        const bool is_left_half = left < (kLeft + kRight) / 2.0;
        return fmt::format(
            "<path d=\"M{0:.1f} {1:.1f}V{2}\" stroke=\"#111\"/>\n<circle cx=\"{0:.1f}\" "
            "cy=\"{1:.1f}\" r=\"6\" fill=\"#fff\" stroke=\"#111\" stroke-width=\"2.5\"/>\n<text "
            "x=\"{3:.1f}\" y=\"{4:.1f}\" font-weight=\"bold\" text-anchor=\"{5}\" stroke=\"#fff\" "
            "stroke-width=\"5\" paint-order=\"stroke\">best {6:.3f}: resolution {7:.2f}</text>\n",
            left, y(best.resolution), kBottom, left + (is_left_half ? 12.0 : -12.0),
            std::max(y(best.resolution) - 6.0, kTop + 16.0), is_left_half ? "start" : "end",
            best.fraction, best.resolution);
    }

    /// Numbers of the critical pairs above the plot; the key below names them.
    [[nodiscard]] std::string pair_band() {
        std::string text = fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"end\">pair</text>\n",
                                       kLeft - 8.0, kTop - kBandGap - kBand / 2.0 + 5.0);
        for (const Stretch &stretch : stretches_of(*curve_, [](const auto &a, const auto &b) {
                 return unordered(a) == unordered(b);
             })) {
            const Pair pair = unordered((*curve_)[stretch.first]);
            auto known = std::find(pairs_.begin(), pairs_.end(), pair);
            if (known == pairs_.end()) {
                known = pairs_.insert(pairs_.end(), pair);
            }
            const double left = x((*curve_)[stretch.first].fraction);
            const double right = stretch.last + 1 < curve_->size()
                                     ? x((*curve_)[stretch.last + 1].fraction)
                                     : kRight;
            text += fmt::format("<rect x=\"{:.1f}\" y=\"{}\" width=\"{:.1f}\" height=\"{}\" "
                                "fill=\"#f2f2f2\" stroke=\"#777\"/>\n",
                                left, kTop - kBand - kBandGap, right - left, kBand);
            if (right - left > 18.0) {
                text +=
                    fmt::format("<text x=\"{:.1f}\" y=\"{}\" text-anchor=\"middle\">{}</text>\n",
                                (left + right) / 2.0, kTop - kBandGap - kBand / 2.0 + 5.0,
                                known - pairs_.begin() + 1);
            }
        }
        return text;
    }

    [[nodiscard]] std::string key() {
        const RetentionWindow &window = answer_->question.window;
        double line = kBottom + 88.0;
        std::string text = fmt::format(
            "<rect x=\"{0}\" y=\"{1}\" width=\"24\" height=\"14\" fill=\"url(#out)\" "
            "stroke=\"#777\"/><text x=\"{2}\" y=\"{3}\">some k outside {4:g} to {5:g}</text>"
            "<path d=\"M{6} {1}l-6 11h12z\"/><text x=\"{7}\" y=\"{3}\">measured</text>"
            "<path d=\"M{8} {9}h34\" stroke=\"#111\" stroke-width=\"2.5\" "
            "stroke-dasharray=\"7 5\"/><text x=\"{10}\" y=\"{3}\">beyond the measured "
            "fractions</text>\n",
            kLeft, line - 12.0, kLeft + 32.0, line, window.from, window.to, kLeft + 250.0,
            kLeft + 264.0, kLeft + 360.0, line - 5.0, kLeft + 404.0);
        const auto &compounds = answer_->question.compounds;
        for (std::size_t i = 0; i < std::min(pairs_.size(), kMostNamed); ++i) {
            line += kKeyLine;
            text += fmt::format("<text x=\"{}\" y=\"{}\">pair {}: {} / {}</text>\n", kLeft, line,
                                i + 1, escaped(fitted(compounds[pairs_[i].first].name, 44)),
                                escaped(fitted(compounds[pairs_[i].second].name, 44)));
        }
        if (pairs_.size() > kMostNamed) {
            line += kKeyLine;
            text += fmt::format("<text x=\"{}\" y=\"{}\">and {} further pairs</text>\n", kLeft,
                                line, pairs_.size() - kMostNamed);
        }
        height_ = line + kKeyLine;
        return text;
    }

    const Answer *answer_;
    const std::vector<CurvePoint> *curve_;
    double low_;
    double span_;
    double step_ = 1.0;
    double top_ = 1.0;
    std::vector<Pair> pairs_; ///< that are critical somewhere, in the order of fractions
    double height_ = 0.0;
};

} // namespace

std::string resolve_picture(const Answer &answer) {
    return MapPicture(answer).draw();
}

} // namespace cospot
