#pragma once

#include "document/json.h"
#include "options/command.h"
#include "options/options.h"

#include <initializer_list>
#include <iosfwd>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

namespace cospot {

/// A file that a report is drawn from.
struct InputTrace {
    std::string name;
    std::string sha256; ///< empty: a pipe, which cannot be read twice
};

/// Where a report comes from, so that it can be made again and checked years later.
struct ReportTrace {
    std::string verb;
    std::vector<std::string> arguments; ///< behind the verb, as typed
    std::optional<InputTrace> library;  ///< before the command changed it; none: it opens none
    std::string version;                ///< of the program
    std::string date_utc;               ///< YYYY-MM-DDThh:mm:ssZ
    std::vector<InputTrace> inputs;
};

/// The files that an answer rests on, beside the library: the positional ones, if the command has
/// any, those that the options name, as far as they were given, and the files among the values of
/// an option that takes names or files.
[[nodiscard]] std::vector<std::string>
input_names(const CommandOptions &options, std::initializer_list<const char *> options_of_files,
            const char *option_of_names_or_files = nullptr);

/// The inputs of a command that is to write a report. Files are summed before they are read;
/// standard input, where it is one of them, is read whole and handed on by `standard_input`.
class TracedInputs {
public:
    /// `names` are file names; "-" is standard input.
    TracedInputs(const std::vector<std::string> &names, std::istream &standard_input);

    [[nodiscard]] const std::vector<InputTrace> &traces() const noexcept { return traces_; }
    [[nodiscard]] std::istream &standard_input() noexcept { return *standard_input_; }

private:
    std::vector<InputTrace> traces_;
    std::istringstream kept_;
    std::istream *standard_input_;
};

enum class LibraryUse { opened, none };

/// The trace of a command called now. Call it before the command changes the library, and where the
/// library is still open only when nothing more is read from it or written to it: closing the file
/// after its checksum was taken drops the locks that this process has on it (POSIX).
[[nodiscard]] ReportTrace trace_of(const std::string &verb, const Invocation &invocation,
                                   const std::vector<InputTrace> &inputs,
                                   LibraryUse library = LibraryUse::opened);

[[nodiscard]] Json trace_json(const ReportTrace &trace);

} // namespace cospot
