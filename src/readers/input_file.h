#pragma once

#include <cstddef>
#include <iosfwd>
#include <memory>
#include <string>

namespace cospot {

/// Whether a text of the command line names input, rather than a compound or a structure: "-" or a
/// file that exists.
[[nodiscard]] bool is_input(const std::string &text);

/// So many bytes of the beginning of a stream, or all there are; the stream is left at its
/// beginning.
[[nodiscard]] std::string first_bytes(std::istream &in, std::size_t most);

/// A file of the user opened for reading; "-" is standard input. That and pipes are read whole.
class InputFile {
public:
    /// Throws InputError when the file cannot be read.
    InputFile(const std::string &name, std::istream &standard_input);

    [[nodiscard]] std::istream &stream() noexcept { return *stream_; }
    /// Goes back to the first byte.
    void rewind();
    /// How much of the file has been read, from 0 to 1; 0 where its length is not known.
    [[nodiscard]] double share_read() const;
    /// The name for messages.
    [[nodiscard]] const std::string &name() const noexcept { return name_; }
    /// The rest of the file.
    [[nodiscard]] std::string read_all();

private:
    std::string name_;
    std::unique_ptr<std::istream> stream_;
    std::size_t size_ = 0; ///< bytes; 0: not known
};

} // namespace cospot
