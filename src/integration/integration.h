#pragma once

#include "integration/integration_settings.h"
#include "readers/chromatogram_table.h"
#include "shared/recorded_trace.h"
#include "signal/emg_fit.h"
#include "signal/found_peak.h"
#include "traces/trace.h"

#include <iosfwd>
#include <memory>
#include <string>
#include <vector>

namespace cospot {

/// Of areas: found ones are in signal times min, reported ones in signal times s.
inline constexpr double kSecondsInMinute = 60.0;

/// A trace with its peaks. Areas of `found` are in the unit of the signal times min.
struct Integration {
    std::string file;
    std::string format;      ///< in words
    std::string sample;      ///< as the file has it; may be empty
    std::string injected_at; ///< as the file has it; may be empty
    std::string trace;       ///< its name, or what kind of signal it is; may be empty
    std::shared_ptr<const RecordedTrace> recorded;
    signal::FoundPeaks found;           ///< after all changes by hand
    std::vector<signal::GroupFit> fits; ///< where overlaps are fitted
    std::vector<StoredPeak> stored;     ///< the file's own table
    std::vector<std::string> notes;     ///< how it was read and found
};

/// Whether the stream holds a trace, not a table; it is left at its beginning.
[[nodiscard]] bool holds_trace(std::istream &in);

/// Reads a trace and finds its peaks. Throws InputError where the file cannot be read, the settings
/// cannot hold for it, or a change by hand hits no peak.
[[nodiscard]] Integration integrate(std::istream &in, const std::string &file,
                                    const IntegrationSettings &settings);

/// The peaks as a table of peaks has them, numbered from 1: areas in the unit of the signal times
/// s, times with their uncertainties. With stored peaks, those of the file's own table.
/// Peaks that the settings name have their compound; throws InputError for a name at a time where
/// no peak is.
[[nodiscard]] std::vector<Peak> peaks_of(const Integration &integration,
                                         const IntegrationSettings &settings);

/// Of all found peaks, in the unit of the signal times min.
[[nodiscard]] double total_area(const Integration &integration);

/// The settings that were used, as options of the command line that give the same peaks again.
[[nodiscard]] std::string settings_words(const Integration &integration,
                                         const IntegrationSettings &settings);

/// "add 4.20; move 5.10 to 5.15", empty without changes.
[[nodiscard]] std::string edits_words(const std::vector<PeakEdit> &edits);

} // namespace cospot
