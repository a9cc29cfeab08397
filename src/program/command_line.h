#pragma once

#include <exception>
#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// Runs `cospot ARGUMENTS...` and returns the exit code. Results go to `out`, messages to `err`.
/// The one place where errors are caught.
int run_command_line(const std::vector<std::string> &arguments, std::istream &in, std::ostream &out,
                     std::ostream &err);

/// Says what went wrong and returns the exit code: kBadInput for bad input, a library or a machine
/// that cannot do it, kProgramFault for everything else, with what to send to whom.
int report_failure(const std::exception &error, std::ostream &err);

} // namespace cospot
