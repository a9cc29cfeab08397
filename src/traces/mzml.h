#pragma once

#include "traces/trace.h"

#include <iosfwd>
#include <string>

namespace cospot {

/// Reads the chromatograms of an mzML file of version 1.1 (mzml11), with or without its index; one
/// element is held at a time. Where it has none, the total of its spectra makes a trace: of those
/// of MS level 1 as the file states it (MS:1000285) or else summed, of those of light summed over
/// all wavelengths. A trace of a pump that cannot be read is left out, of which a note tells.
/// Throws InputError for another version, another XML document, what `read_xml` refuses, an array
/// that `MzmlArray` refuses, times without a unit, a file without any trace, and as `check_points`
/// does.
[[nodiscard]] TraceFile read_mzml(std::istream &in, const std::string &file,
                                  const TraceOptions &options);

} // namespace cospot
