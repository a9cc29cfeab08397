#pragma once

#include "traces/trace.h"

#include <iosfwd>
#include <string>
#include <string_view>

namespace cospot {

/// Whether a text plainly is a trace, as no table of peaks or plates is: it has a run of 50 rows or
/// more of two or more numbers; the first number of a row never falls, and four of five steps of it
/// lie within a factor of two of their median (retention times of peaks scatter more); rows are not
/// merely numbered before a rising second column; and no heading above is a column of the program's
/// own tables (peak, tR, area, ...). `first_bytes` should hold 64 kB where the file has them.
[[nodiscard]] bool looks_like_text_trace(std::string_view first_bytes);

/// Reads a trace out of a text: the longest run of rows of two or more numbers (at least 10 rows of
/// as many numbers each; blank lines do not end it), in any encoding that LineReader reads, with
/// tabs, ';', blanks or ',' between the numbers and a decimal comma where the comma does not
/// divide. The column whose heading speaks of time, else the first, holds the times; each other one
/// is a trace. Its unit stands in the heading, "Time (min)", or is `time_unit`. Throws InputError,
/// with the line, for a trace that a faulty row breaks in two, for times that do not rise, for a
/// time without a unit, for points beside commas as decimal signs, and where there is no such run.
[[nodiscard]] TraceFile read_text_trace(std::istream &in, const std::string &file,
                                        const TraceOptions &options);

} // namespace cospot
