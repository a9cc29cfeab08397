#pragma once

#include "traces/trace.h"

#include <cstddef>
#include <iosfwd>
#include <string>
#include <string_view>

namespace cospot {

/// How much of a file `is_trace` should see: this much of its beginning, or all of it.
inline constexpr std::size_t kFirstBytes = 1U << 16U;

/// Whether a file is one of raw traces, from its content alone: netCDF (of any kind, also where
/// `read_trace` refuses it by name), HDF5, XML, JCAMP-DX, these compressed by gzip, and a text that
/// `looks_like_text_trace`. Never for the program's own tables in CSV, TSV and JSON.
[[nodiscard]] bool is_trace(std::string_view first_bytes);

/// Reads all traces and stored peaks of a file, whose format is told from its content; what is none
/// of the others is read as text. `file` is its name for messages, `in` has to be seekable. Throws
/// InputError for a file of more than 1 GiB (gzip: when decompressed), for HDF5 and other kinds
/// that are not read, and as the reader of its format does.
[[nodiscard]] TraceFile read_trace(std::istream &in, const std::string &file,
                                   const TraceOptions &options = {});

/// As `read_trace`, of the file of that path. Throws InputError where it cannot be read.
[[nodiscard]] TraceFile read_trace_file(const std::string &path, const TraceOptions &options = {});

/// The trace that `which`, the user's --trace, asks for: by its name (case ignored) or its number
/// in the file, from 1. Where it is empty, the only one that holds peaks. Throws InputError, which
/// lists the traces with their numbers, where there is no such trace, or several.
[[nodiscard]] const Trace &chosen(const TraceFile &file, const std::string &which);

} // namespace cospot
