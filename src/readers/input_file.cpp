#include "readers/input_file.h"

#include "shared/error.h"

#include <filesystem>
#include <istream>
#include <iterator>
#include <system_error>

namespace cospot {

InputFile::InputFile(const std::string &name, std::istream &standard_input)
    : name_(name == "-" ? "standard input" : name), stream_(&standard_input) {
    if (name == "-") {
        return;
    }
    std::error_code error;
    if (std::filesystem::is_directory(name, error)) {
        throw InputError({name, 0, ""}, "a folder", "a file");
    }
    file_.open(name, std::ios::binary);
    if (!file_) {
        throw InputError({name, 0, ""}, "no file that can be read", "an existing, readable file");
    }
    stream_ = &file_;
}

std::string InputFile::read_all() {
    return {std::istreambuf_iterator<char>(*stream_), std::istreambuf_iterator<char>()};
}

} // namespace cospot
