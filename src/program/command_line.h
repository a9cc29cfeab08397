#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// Runs `cospot ARGUMENTS...` and returns the exit code. Results go to `out`, messages to `err`.
/// The one place where errors are caught.
int run_command_line(const std::vector<std::string> &arguments, std::istream &in, std::ostream &out,
                     std::ostream &err);

} // namespace cospot
