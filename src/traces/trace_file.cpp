#include "traces/trace_file.h"

#include "shared/error.h"
#include "shared/text.h"
#include "traces/astm_e1947.h"
#include "traces/astm_e2077.h"
#include "traces/inflate.h"
#include "traces/jcamp_dx.h"
#include "traces/mzml.h"
#include "traces/text_trace.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <system_error>
#include <utility>
#include <vector>

namespace cospot {

namespace {

constexpr std::size_t kLargestFile = 1U << 30U;
constexpr std::string_view kUtf8Mark = "\xEF\xBB\xBF";

enum class TraceFormat { netcdf, hdf5, xml, jcamp_dx, text };

/// XML in UTF-8 or UTF-16 begins with its declaration or with the root element.
bool is_xml(std::string_view bytes) {
    if (bytes.starts_with(kUtf8Mark)) {
        bytes.remove_prefix(kUtf8Mark.size());
    }
    constexpr std::string_view little("\xFF\xFE<\0?\0", 6);
    constexpr std::string_view big("\xFE\xFF\0<\0?", 6);
    if (bytes.starts_with(little) || bytes.starts_with(big)) {
        return true;
    }
    const std::size_t first = bytes.find_first_not_of(" \t\r\n");
    bytes.remove_prefix(std::min(first, bytes.size()));
    return bytes.starts_with("<?xml") || bytes.starts_with("<mzML") ||
           bytes.starts_with("<indexedmzML") || bytes.starts_with("<!--") ||
           bytes.starts_with("<!DOCTYPE");
}

/// What a file not compressed by gzip begins as.
TraceFormat format_of(std::string_view bytes) {
    if (bytes.starts_with("CDF") && bytes.size() > 3 &&
        static_cast<unsigned char>(bytes[3]) < ' ') {
        return TraceFormat::netcdf;
    }
    if (bytes.starts_with("\x89HDF\r\n\x1A\n")) {
        return TraceFormat::hdf5;
    }
    if (is_xml(bytes)) {
        return TraceFormat::xml;
    }
    return is_jcamp_dx(bytes) ? TraceFormat::jcamp_dx : TraceFormat::text;
}

TraceFile read_netcdf(std::istream &in, const std::string &file, const TraceOptions &options) {
    NetcdfClassic netcdf(in, file);
    if (is_astm_e1947(netcdf)) {
        return read_astm_e1947(netcdf, options);
    }
    if (is_astm_e2077(netcdf)) {
        return read_astm_e2077(netcdf, options);
    }
    throw InputError({file, 0, "ordinate_values"}, "a netCDF file that holds no chromatogram",
                     "the variables of ASTM E1947 (ordinate_values) or E2077 (total_intensity)");
}

std::string first_bytes_of(std::istream &in) {
    std::string bytes(kFirstBytes, '\0');
    in.clear();
    in.seekg(0);
    in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    bytes.resize(static_cast<std::size_t>(in.gcount()));
    in.clear();
    in.seekg(0);
    return bytes;
}

TraceFile read_uncompressed(std::istream &in, const std::string &file, std::string_view first_bytes,
                            const TraceOptions &options) {
    switch (format_of(first_bytes)) {
    case TraceFormat::netcdf:
        return read_netcdf(in, file, options);
    case TraceFormat::hdf5:
        throw InputError({file, 0, "first bytes"}, "an HDF5 file (netCDF-4 is one)",
                         "netCDF classic, as the standard has it (nccopy -k classic converts "
                         "netCDF-4)");
    case TraceFormat::xml:
        return read_mzml(in, file, options);
    case TraceFormat::jcamp_dx:
        return read_jcamp_dx(in, file, options);
    default:
        return read_text_trace(in, file, options);
    }
}

/// "1 "TIC" (total ion current), 2 ..." for messages.
std::string listed(const TraceFile &file) {
    constexpr std::size_t most = 20;
    std::string text;
    for (std::size_t i = 0; i < std::min(file.traces.size(), most); ++i) {
        const Trace &trace = file.traces[i];
        const std::string kind = trace.kind.empty() ? "" : printable(trace.kind);
        const std::string about =
            trace.holds_peaks ? kind : kind + (kind.empty() ? "" : ", ") + "no peaks";
        text += fmt::format("{}{} {}{}", text.empty() ? "" : ", ", i + 1, in_quotes(trace.name),
                            about.empty() ? "" : " (" + about + ")");
    }
    return text + (file.traces.size() > most ? ", ..." : "");
}

} // namespace

bool is_trace(std::string_view first_bytes) {
    std::string content;
    if (is_gzip(first_bytes)) {
        content = start_of_gunzipped(first_bytes, kFirstBytes);
        first_bytes = content;
    }
    return format_of(first_bytes) != TraceFormat::text || looks_like_text_trace(first_bytes);
}

TraceFile read_trace(std::istream &in, const std::string &file, const TraceOptions &options) {
    in.clear();
    in.seekg(0, std::ios::end);
    if (const std::streamoff size = in.tellg(); size > static_cast<std::streamoff>(kLargestFile)) {
        throw InputError({file, 0, "size"}, fmt::format("{} bytes", size),
                         "a file of at most 1 GiB");
    }
    const std::string first_bytes = first_bytes_of(in);
    if (!is_gzip(first_bytes)) {
        return read_uncompressed(in, file, first_bytes, options);
    }
    std::istringstream content(gunzipped(in, file));
    if (const std::string start = first_bytes_of(content); !is_gzip(start)) {
        return read_uncompressed(content, file, start, options);
    }
    throw InputError({file, 0, "gzip"}, "a file compressed twice", "one compressed once");
}

TraceFile read_trace_file(const std::string &path, const TraceOptions &options) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(path, error)) {
        throw InputError({path, 0, ""},
                         std::filesystem::is_directory(path, error) ? "a folder"
                                                                    : "no file that can be read",
                         "a file of raw traces");
    }
    std::ifstream in(path, std::ios::binary);
    if (!in) {
        throw InputError({path, 0, ""}, "no file that can be read", "a readable file");
    }
    return read_trace(in, path, options);
}

const Trace &chosen(const TraceFile &file, const std::string &which) {
    const Where where{file.file, 0, ""};
    std::vector<const Trace *> found;
    for (const Trace &trace : file.traces) {
        if (which.empty() ? trace.holds_peaks : equal_ignoring_case(trace.name, which)) {
            found.push_back(&trace);
        }
    }
    if (found.size() == 1) {
        return *found.front();
    }
    for (std::size_t i = 0; found.empty() && i < file.traces.size(); ++i) {
        if (which == std::to_string(i + 1)) {
            return file.traces[i];
        }
    }
    const std::string what =
        (found.empty() ? "no" : std::to_string(found.size())) +
        (which.empty() ? " traces that hold peaks" : " traces named " + in_quotes(which));
    throw InputError(where, what + ": " + listed(file), "--trace with the number of one of them");
}

} // namespace cospot
