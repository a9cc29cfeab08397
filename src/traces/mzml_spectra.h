#pragma once

#include "traces/mzml_array.h"
#include "traces/trace.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// One spectrum of mzML while it is read: what its total over time needs.
struct MzmlSpectrum {
    Where where{};
    std::size_t length = 0;               ///< of its arrays, unless they say another
    std::string level{};                  ///< MS level; empty where it is not said
    std::string light_kind{};             ///< "absorption", "emission"; empty for neither
    bool is_light = false;                ///< of ultraviolet or visible light
    std::optional<MzmlParam> total{};     ///< total ion current as stated
    std::optional<MzmlParam> scan_time{}; ///< of its first scan
    std::optional<MzmlArray> signal{};

    /// Takes what a term of the spectrum itself says.
    void take(const MzmlParam &param);
    /// Whether its signals have to be summed.
    [[nodiscard]] bool needs_signal() const { return is_light || !total; }
};

/// The totals of the spectra of a file, point by point.
class MzmlSpectra {
public:
    MzmlSpectra(std::string file, const TraceOptions &options);

    /// Adds a point. A fault is kept: it matters only where the totals are asked for.
    void add(const MzmlSpectrum &spectrum);
    /// As `add` does with a fault.
    void keep_fault(const InputError &fault);
    /// Appends one trace for the ions and one for light, as far as there are such spectra. Throws
    /// the first fault.
    void add_traces_to(TraceFile &file) &&;

private:
    struct Total {
        Trace trace;
        bool is_stated = false; ///< all its points are as the file states them
    };

    void add_point(const MzmlSpectrum &spectrum);

    std::string file_;
    TraceOptions options_;
    Total ions_;
    Total light_;
    std::optional<InputError> fault_;
};

} // namespace cospot
