#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// More points than this are refused: of one trace, and of all traces of a file together.
inline constexpr std::size_t kMostTracePoints = 5'000'000;
inline constexpr std::size_t kMostPointsOfFile = 20'000'000;

/// A peak of the table that an integrator left in the file beside the trace.
struct StoredPeak {
    std::string name{};    ///< empty where the file has none
    double apex_min = 0.0; ///< retention time
    std::optional<double> start_min{};
    std::optional<double> end_min{};
    /// As the file has it: ASTM E1947 states no unit. In the real files that were seen it is the
    /// unit of the signal times seconds, `retention_unit` being seconds.
    std::optional<double> area{};
    std::optional<double> height{}; ///< in the unit of the signal
};

/// The signal of a detector over time, as it was recorded.
struct Trace {
    std::string name{};             ///< as the file calls it; may be empty
    std::string kind{};             ///< "total ion current", "pressure"; empty where it is not said
    bool holds_peaks = true;        ///< false for pressure, flow and temperature
    std::string signal_unit{};      ///< as the file calls it; empty where it is not said
    std::vector<double> time_min{}; ///< finite, each later than the one before
    std::vector<double> signal{};   ///< finite, one a time
};

/// What a file of raw data holds. Texts are UTF-8 but otherwise as the file has them: they are to
/// be made `printable` before they are shown.
struct TraceFile {
    std::string file{};          ///< its name, for messages
    std::string format{};        ///< "ASTM E1947", "ASTM E2077", "mzML 1.1", "JCAMP-DX", "text"
    std::string sample{};        ///< empty where it is not said
    std::string injected_at{};   ///< ISO 8601 where the file's own form can be read, else as it is
    std::vector<Trace> traces{}; ///< at least one
    std::vector<StoredPeak> stored_peaks{}; ///< in the order of the file; their times as they are
    std::vector<std::string> notes{};       ///< what the user should know of how it was read
};

/// What the user says of the file.
struct TraceOptions {
    std::string time_unit{}; ///< "s" or "min", where the file does not say it; else empty
};

} // namespace cospot
