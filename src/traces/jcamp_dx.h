#pragma once

#include "traces/trace.h"

#include <iosfwd>
#include <string>
#include <string_view>

namespace cospot {

/// Whether a text begins as JCAMP-DX does: with ##TITLE=, comments before it aside.
[[nodiscard]] bool is_jcamp_dx(std::string_view first_bytes);

/// Reads the chromatograms of a JCAMP-DX file (jcamp1988): each block with ##XYDATA=(X++(Y..Y)) in
/// the forms AFFN, PAC, SQZ, DIF and DUP, or with (XY..XY), whose XUNITS are seconds or minutes.
/// Blocks inside a block are read one by one; tables of peaks and ##NTUPLES= are not read. Throws
/// InputError, with the line, for a block without what its table needs (XFACTOR, YFACTOR, FIRSTX,
/// LASTX, NPOINTS), for abscissas at line starts or ordinates behind differences that do not agree
/// with what was read (points lost or added on the way), for another number of points than NPOINTS,
/// another FIRSTX, LASTX or FIRSTY than the header has, for XUNITS of a spectrum, and as
/// `check_points` does.
[[nodiscard]] TraceFile read_jcamp_dx(std::istream &in, const std::string &file,
                                      const TraceOptions &options);

} // namespace cospot
