#include "integration/integration.h"

#include "readers/input_file.h"
#include "shared/error.h"
#include "shared/number.h"
#include "shared/text.h"
#include "signal/peak_edits.h"
#include "signal/peak_finder.h"
#include "signal/tangent_skim.h"
#include "traces/trace_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <istream>
#include <utility>

namespace cospot {

namespace {

/// Beside a peak this many times as high, within so many of its half widths of a border, a peak is
/// what smoothing leaves of the large one's foot (seen on generated traces of S/N above 1000).
constexpr double kRingingRatio = 2000.0;
constexpr double kRingingReach = 3.0;

/// The blank's signal at the times of the trace. Both must have been recorded alike.
void subtract_blank(Trace &trace, const std::string &blank_file,
                    const IntegrationSettings &settings) {
    const TraceFile file = read_trace_file(blank_file, settings.reading);
    const Trace &blank = chosen(file, settings.trace);
    const std::size_t count = trace.time_min.size();
    const double step = (trace.time_min.back() - trace.time_min.front()) /
                        static_cast<double>(std::max<std::size_t>(1, count - 1));
    bool agree = blank.time_min.size() >= count;
    for (std::size_t i = 0; agree && i < count; ++i) {
        agree = std::abs(blank.time_min[i] - trace.time_min[i]) < 0.1 * step;
    }
    if (!agree) {
        throw InputError(
            {blank_file, 0, ""}, "other times than those of the trace",
            "a blank recorded at the same times; purity --blank compares peak by peak");
    }
    for (std::size_t i = 0; i < count; ++i) {
        trace.signal[i] -= blank.signal[i];
    }
}

signal::FoundPeaks without_ringing(signal::FoundPeaks found) {
    const std::vector<signal::FoundPeak> all = found.peaks;
    std::erase_if(found.peaks, [&](const signal::FoundPeak &peak) {
        return peak.area <= 0.0 || std::any_of(all.begin(), all.end(), [&](const auto &large) {
                   const double reach = kRingingReach * large.half_width;
                   return large.height > kRingingRatio * peak.height &&
                          peak.apex > large.start - reach && peak.apex < large.end + reach;
               });
    });
    return found;
}

signal::FoundPeaks edited(signal::FoundPeaks found, const RecordedTrace &trace,
                          const std::vector<PeakEdit> &edits) {
    for (const PeakEdit &edit : edits) {
        switch (edit.kind) {
        case PeakEdit::Kind::add:
            found = signal::add_peak(found, trace.time_min, trace.signal, edit.at_min);
            break;
        case PeakEdit::Kind::drop:
            found = signal::drop_peak(found, trace.time_min, trace.signal, edit.at_min);
            break;
        case PeakEdit::Kind::split:
            found = signal::split_peak(found, trace.time_min, trace.signal, edit.at_min);
            break;
        case PeakEdit::Kind::move:
            found =
                signal::move_border(found, trace.time_min, trace.signal, edit.at_min, edit.to_min);
            break;
        }
    }
    return found;
}

/// Riders and fits change areas, so that they come after the changes by hand.
void tell_overlaps_apart(Integration &result, Overlaps overlaps) {
    const RecordedTrace &trace = *result.recorded;
    if (overlaps == Overlaps::skim) {
        result.found = signal::skim_riders(std::move(result.found), trace.time_min, trace.signal);
    } else if (overlaps == Overlaps::fit) {
        result.fits = signal::fit_groups(result.found, trace.time_min, trace.signal);
        result.found = signal::with_fits(std::move(result.found), result.fits);
        const auto left =
            std::count_if(result.fits.begin(), result.fits.end(), [](const signal::GroupFit &fit) {
                return fit.outcome != signal::FitOutcome::kFitted;
            });
        if (left > 0) {
            result.notes.push_back(fmt::format(
                "{} of {} of overlapping peaks could not be fitted: perpendicular drop holds there",
                left, counted(result.fits.size(), "group")));
        }
    }
}

void add_notes(Integration &result, const IntegrationSettings &settings) {
    if (!result.found.spikes.empty()) {
        result.notes.push_back(counted(result.found.spikes.size(), "point") +
                               " taken for spikes and replaced by what lies around them");
    }
    if (settings.minus) {
        result.notes.push_back("less " + *settings.minus + ", point by point");
    }
    if (!settings.edits.empty()) {
        result.notes.push_back(fmt::format("! changed by hand by {}: {}. Reason: {}", settings.who,
                                           edits_words(settings.edits), settings.reason));
    }
}

} // namespace

const char *to_text(Overlaps overlaps) {
    switch (overlaps) {
    case Overlaps::skim:
        return "skim";
    case Overlaps::fit:
        return "fit";
    case Overlaps::drop:
        break;
    }
    return "drop";
}

bool holds_trace(std::istream &in) {
    return is_trace(first_bytes(in, kFirstBytes));
}

Integration integrate(std::istream &in, const std::string &file,
                      const IntegrationSettings &settings) {
    TraceFile read = read_trace(in, file, settings.reading);
    Trace trace = chosen(read, settings.trace);
    if (settings.minus) {
        subtract_blank(trace, *settings.minus, settings);
    }
    Integration result{.file = file,
                       .format = read.format,
                       .sample = read.sample,
                       .injected_at = read.injected_at,
                       .trace = trace.name.empty() ? trace.kind : trace.name,
                       .recorded = {},
                       .found = {},
                       .fits = {},
                       .stored = std::move(read.stored_peaks),
                       .notes = std::move(read.notes)};
    auto recorded = std::make_shared<RecordedTrace>();
    recorded->time_min = std::move(trace.time_min);
    recorded->signal = std::move(trace.signal);
    recorded->signal_unit = trace.signal_unit;
    try {
        result.found = without_ringing(
            signal::find_peaks(recorded->time_min, recorded->signal, settings.finder));
        result.found = edited(std::move(result.found), *recorded, settings.edits);
    } catch (const InputError &fault) {
        throw InputError({file, 0, fault.where().column}, fault.found(), fault.expected());
    }
    recorded->baseline = result.found.baseline;
    result.recorded = std::move(recorded);
    tell_overlaps_apart(result, settings.overlaps);
    add_notes(result, settings);
    return result;
}

namespace {

std::vector<Peak> stored_peaks(const Integration &integration) {
    if (integration.stored.empty()) {
        throw InputError({integration.file, 0, ""}, "no table of peaks beside the trace",
                         "a file whose integrator left one, or no --stored-peaks");
    }
    std::vector<Peak> peaks;
    for (const StoredPeak &stored : integration.stored) {
        Peak peak;
        peak.name = std::to_string(peaks.size() + 1);
        peak.retention_time_min = stored.apex_min;
        peak.area = stored.area;
        peak.height = stored.height;
        peak.start_min = stored.start_min;
        peak.end_min = stored.end_min;
        peaks.push_back(std::move(peak));
    }
    return peaks;
}

std::vector<Peak> found_peaks(const Integration &integration) {
    std::vector<Peak> peaks;
    for (const signal::FoundPeak &found : integration.found.peaks) {
        Peak peak;
        peak.name = std::to_string(peaks.size() + 1);
        peak.retention_time_min = found.apex;
        peak.uncertainty_min = found.apex_uncertainty;
        peak.area = found.area * kSecondsInMinute;
        peak.height = found.height;
        peak.start_min = found.start;
        peak.end_min = found.end;
        peak.width_half_min = found.half_width;
        peak.symmetry = found.symmetry;
        peaks.push_back(std::move(peak));
    }
    return peaks;
}

void name_peak(std::vector<Peak> &peaks, const NamedPeak &named, const std::string &file) {
    for (Peak &peak : peaks) {
        const bool is_inside = peak.start_min && peak.end_min && named.at_min >= *peak.start_min &&
                               named.at_min <= *peak.end_min;
        if (is_inside && peak.compound.empty()) {
            peak.compound = named.compound;
            peak.named = named.compound;
            return;
        }
    }
    throw InputError({file, 0, ""},
                     fmt::format("no peak at {} min for {}", exact_text(named.at_min),
                                 in_quotes(named.compound)),
                     "a time between the borders of a peak without a name (cospot peaks shows "
                     "them)");
}

} // namespace

std::vector<Peak> peaks_of(const Integration &integration, const IntegrationSettings &settings) {
    std::vector<Peak> peaks =
        settings.uses_stored_peaks ? stored_peaks(integration) : found_peaks(integration);
    for (const NamedPeak &named : settings.names) {
        name_peak(peaks, named, integration.file);
    }
    return peaks;
}

double total_area(const Integration &integration) {
    double total = 0.0;
    for (const signal::FoundPeak &peak : integration.found.peaks) {
        total += peak.area;
    }
    return total;
}

std::string edits_words(const std::vector<PeakEdit> &edits) {
    std::string text;
    for (const PeakEdit &edit : edits) {
        text += text.empty() ? "" : "; ";
        switch (edit.kind) {
        case PeakEdit::Kind::add:
            text += "peak added at " + exact_text(edit.at_min) + " min";
            break;
        case PeakEdit::Kind::drop:
            text += "peak at " + exact_text(edit.at_min) + " min dropped";
            break;
        case PeakEdit::Kind::split:
            text += "peak split at " + exact_text(edit.at_min) + " min";
            break;
        case PeakEdit::Kind::move:
            text += fmt::format("border moved from {} to {} min", exact_text(edit.at_min),
                                exact_text(edit.to_min));
            break;
        }
    }
    return text;
}

std::string settings_words(const Integration &integration, const IntegrationSettings &settings) {
    const signal::UsedSettings &used = integration.found.used;
    return fmt::format(
        "--narrowest-half-width {:.4g} --baseline-period {:.4g} --smoothing-period {:.4g} "
        "--peak-threshold {:g} --overlaps {}{}",
        used.narrowest_half_width, used.baseline_period, used.smoothing_period, used.threshold,
        to_text(settings.overlaps), settings.finder.shoulders ? "" : " --no-shoulders");
}

} // namespace cospot
