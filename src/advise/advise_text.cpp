#include "advise/advise_text.h"

#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace cospot {

namespace {

constexpr std::size_t kAdviseNameWidth = 42;
constexpr std::size_t kListed = 8; ///< systems by themselves, and inseparable pairs

std::string measurement_line(const AdvisedMeasurement &one, const std::string &leaves) {
    return fmt::format("  {:>6.2f} {:>7.2f}  {:<11} {}\n", one.gain.bits, one.bits_per_effort(),
                       leaves, fitted(printable(one.name + " (" + one.kind + ")"), 46));
}

std::string heading(const char *leaves) {
    return fmt::format("  {:>6} {:>7}  {:<11} {}\n", "bits", "/effort", leaves, "measurement");
}

std::string joined(const std::vector<std::string> &systems) {
    return fmt::format("{}", fmt::join(systems, " + "));
}

std::string set_line(const AdvisedSet &set) {
    return fmt::format("  {} {:>12.3f} {:>12.2f}\n", padded(joined(set.systems), kAdviseNameWidth),
                       set.discriminating_power, set.mean_list_length);
}

std::string sets_text(const SystemAdvice &advice) {
    std::string text;
    for (const AdvisedSet &set : advice.sets) {
        if (display_width(joined(set.systems)) <= kAdviseNameWidth) {
            text += set_line(set);
        } else {
            text += wrapped(printable(joined(set.systems)), 2);
            text += set_line({{}, set.discriminating_power, set.mean_list_length});
        }
    }
    return text;
}

} // namespace

std::string advice_text(const Feature &feature, const FeatureAdvice &advice, std::size_t top,
                        const Style &style) {
    std::string text = style.strong(printable(feature.sample + " / " + feature.name)) + '\n';
    if (advice.candidates.empty()) {
        return text + wrapped("nothing to compare with: no advice", 2);
    }
    text += wrapped(fmt::format("{} of {} candidates remain in the 95 % set; {:.2f} bits are open",
                                advice.remaining, advice.candidates.size(), advice.open_bits),
                    2);
    if (advice.measurements.empty()) {
        return text +
               wrapped("no further measurement that the library knows of would tell more", 2);
    }
    text += heading("leaves");
    for (std::size_t i = 0; i < std::min(top, advice.measurements.size()); ++i) {
        const AdvisedMeasurement &one = advice.measurements[i];
        text += measurement_line(one,
                                 fmt::format("{:.1f} of {}", one.gain.remaining, advice.remaining));
    }
    return text;
}

std::string sample_advice_text(const std::string &sample,
                               const std::vector<AdvisedMeasurement> &measurements, std::size_t top,
                               const Style &style) {
    if (measurements.empty()) {
        return "";
    }
    std::string text =
        style.strong(printable(sample) + ": what tells about all its features at once") + '\n';
    text += heading("");
    for (std::size_t i = 0; i < std::min(top, measurements.size()); ++i) {
        text += measurement_line(measurements[i], "");
    }
    return text;
}

std::string system_advice_text(const SystemAdvice &advice, const Style &style) {
    std::string text =
        style.strong(fmt::format("Telling {} compounds apart", advice.compounds.size())) + '\n';
    if (advice.sets.empty()) {
        return text + wrapped("no system of the library tells any two of them apart", 2);
    }
    const std::string columns = fmt::format("  {} {:>12} {:>12}\n", padded("", kAdviseNameWidth),
                                            "discr. power", "list length");
    text += "\n  one by one\n" + columns;
    for (std::size_t i = 0; i < std::min(kListed, advice.alone.size()); ++i) {
        text += set_line(advice.alone[i]);
    }
    text += "\n  together\n" + columns + sets_text(advice) + '\n';
    text +=
        wrapped(advice.is_exact
                    ? std::string("No others do better: all sets of as many systems were compared.")
                    : fmt::format("Chosen one after the other; at least {} systems are needed.",
                                  advice.at_least),
                2);
    for (std::size_t i = 0; i < std::min(kListed, advice.inseparable.size()); ++i) {
        const auto &[first, second] = advice.inseparable[i];
        text += wrapped(
            printable(fmt::format("not told apart by any system: {} and {}", first, second)), 2);
    }
    if (advice.inseparable.size() > kListed) {
        text += fmt::format("  ... and {} more pairs\n", advice.inseparable.size() - kListed);
    }
    if (advice.never_together > 0) {
        text +=
            wrapped(fmt::format("{} of {} pairs were never measured on one system together, and "
                                "count as not told apart.",
                                advice.never_together,
                                advice.compounds.size() * (advice.compounds.size() - 1) / 2),
                    2);
    }
    return text;
}

} // namespace cospot
