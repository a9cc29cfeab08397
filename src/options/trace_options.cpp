#include "options/trace_options.h"

#include "library/changes.h"
#include "shared/number.h"
#include "shared/text.h"

#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;
using Numbers = std::vector<double>;
using Texts = std::vector<std::string>;

Overlaps overlaps_of(const CommandOptions &options) {
    const std::string asked = options.get<std::string>("overlaps");
    for (const Overlaps overlaps : kAllOverlaps) {
        if (asked == to_text(overlaps)) {
            return overlaps;
        }
    }
    throw bad_option("overlaps", in_quotes(asked), "drop, skim or fit");
}

std::string time_unit_of(const CommandOptions &options) {
    const std::string unit = options.text("time-unit").value_or("");
    if (!unit.empty() && unit != "s" && unit != "min") {
        throw bad_option("time-unit", in_quotes(unit), "s or min");
    }
    return unit;
}

double time_of(const std::string &text, const char *option) {
    const auto value = number_from_text(text);
    if (!value || *value < 0.0) {
        throw bad_option(option, in_quotes(text), "a time in min");
    }
    return *value;
}

/// "5.10:5.15"
PeakEdit moved_border(const std::string &text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string::npos) {
        throw bad_option("move-border", in_quotes(text), "FROM:TO in min, as in 5.10:5.15");
    }
    return {PeakEdit::Kind::move, time_of(text.substr(0, colon), "move-border"),
            time_of(text.substr(colon + 1), "move-border")};
}

std::vector<PeakEdit> edits_of(const CommandOptions &options) {
    std::vector<PeakEdit> edits;
    const auto add = [&](const char *option, PeakEdit::Kind kind) {
        for (const std::string &text : options.texts(option)) {
            edits.push_back({kind, time_of(text, option), 0.0});
        }
    };
    add("drop-peak", PeakEdit::Kind::drop);
    add("add-peak", PeakEdit::Kind::add);
    add("split-peak", PeakEdit::Kind::split);
    for (const std::string &text : options.texts("move-border")) {
        edits.push_back(moved_border(text));
    }
    return edits;
}

std::vector<NamedPeak> names_of(const CommandOptions &options) {
    std::vector<NamedPeak> names;
    for (const std::string &text : options.texts("peak-name")) {
        const std::size_t equals = text.find('=');
        if (equals == std::string::npos || equals + 1 == text.size()) {
            throw bad_option("peak-name", in_quotes(text), "TIME=COMPOUND, as in 4.34=limonene");
        }
        names.push_back({time_of(text.substr(0, equals), "peak-name"), text.substr(equals + 1)});
    }
    return names;
}

std::optional<int> first_carbon_of(const CommandOptions &options) {
    constexpr int longest = 200;
    if (!options.has("ladder-first")) {
        return std::nullopt;
    }
    const int carbon = options.get<int>("ladder-first");
    if (carbon < 1 || carbon > longest) {
        throw bad_option("ladder-first", std::to_string(carbon), "a carbon number from 1 to 200");
    }
    return carbon;
}

} // namespace

void add_trace_options(CommandOptions &options) {
    options.add()("trace", po::value<std::string>(),
                  "of a file with several traces: the name or number of one")(
        "time-unit", po::value<std::string>(), "of a trace that does not say it: s or min")(
        "narrowest-half-width", po::value<double>(),
        "of a trace's peaks, in min (else found from the trace)")(
        "baseline-period", po::value<double>(),
        "waves this long are baseline, in min (else 20 times the widest half width)")(
        "smoothing-period", po::value<double>(),
        "waves this short are noise, in min (else the narrowest half width)")(
        "peak-threshold", po::value<double>(),
        "least height of a peak, in standard deviations of the smoothed noise (else 4.5)")(
        "no-shoulders", "only peaks with a maximum of their own")(
        "overlaps", po::value<std::string>()->default_value("drop"),
        "areas of peaks that overlap: drop (a perpendicular), skim (riders by a tangent) or fit "
        "(exponentially modified Gaussians)")(
        "stored-peaks", "the peaks of the table that the file of a trace holds itself")(
        "minus", po::value<std::string>(), "trace of a blank, subtracted point by point")(
        "drop-peak", po::value<Texts>()->composing(), "without the peak at this time, min")(
        "add-peak", po::value<Texts>()->composing(),
        "with a peak at this time, min")("split-peak", po::value<Texts>()->composing(),
                                         "the peak at this time as two, parted there")(
        "move-border", po::value<Texts>()->composing(), "FROM:TO, the border at FROM min moved")(
        "peak-name", po::value<Texts>()->composing(),
        "TIME=COMPOUND, what the peak of a trace at this time (min) is known to be; repeat it")(
        "reason", po::value<std::string>(), "why peaks were changed by hand, for the report")(
        "ladder-first", po::value<int>(),
        "carbon number of the first homologue, where the ladder is a trace");
}

IntegrationSettings integration_settings(const CommandOptions &options) {
    IntegrationSettings settings;
    settings.trace = options.text("trace").value_or("");
    settings.reading.time_unit = time_unit_of(options);
    settings.finder.narrowest_half_width = options.positive("narrowest-half-width");
    settings.finder.baseline_period = options.positive("baseline-period");
    settings.finder.smoothing_period = options.positive("smoothing-period");
    settings.finder.threshold = options.positive("peak-threshold");
    settings.finder.shoulders = !options.has("no-shoulders");
    settings.overlaps = overlaps_of(options);
    settings.uses_stored_peaks = options.has("stored-peaks");
    settings.minus = options.text("minus");
    settings.edits = edits_of(options);
    settings.who = library::login_name();
    settings.names = names_of(options);
    settings.reason = options.text("reason").value_or("");
    settings.first_carbon = first_carbon_of(options);
    if (!settings.edits.empty() && settings.reason.empty()) {
        throw bad_usage("peaks changed by hand without --reason", "--reason TEXT: why");
    }
    if (!settings.edits.empty() && settings.uses_stored_peaks) {
        throw bad_option("stored-peaks", "changes by hand", "one of them");
    }
    return settings;
}

} // namespace cospot
