#pragma once

#include <fstream>
#include <iosfwd>
#include <string>

namespace cospot {

/// A file of the user opened for reading; "-" is standard input.
class InputFile {
public:
    /// Throws InputError when the file cannot be read.
    InputFile(const std::string &name, std::istream &standard_input);

    [[nodiscard]] std::istream &stream() noexcept { return *stream_; }
    /// The name for messages.
    [[nodiscard]] const std::string &name() const noexcept { return name_; }
    /// The rest of the file.
    [[nodiscard]] std::string read_all();

private:
    std::string name_;
    std::ifstream file_;
    std::istream *stream_;
};

} // namespace cospot
