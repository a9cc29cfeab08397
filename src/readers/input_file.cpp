#include "readers/input_file.h"

#include "shared/error.h"

#include <filesystem>
#include <fstream>
#include <istream>
#include <sstream>
#include <system_error>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kLargestContent = 1U << 30U;

/// The rest of a stream; throws InputError where it does not end within 1 GiB.
std::string read_bounded(std::istream &in, const std::string &name) {
    std::string content;
    std::string block(1U << 16U, '\0');
    while (in.read(block.data(), static_cast<std::streamsize>(block.size())) || in.gcount() > 0) {
        content.append(block, 0, static_cast<std::size_t>(in.gcount()));
        if (content.size() > kLargestContent) {
            throw InputError({name, 0, ""}, "more than 1 GiB", "a file of the user's own");
        }
    }
    return content;
}

} // namespace

bool is_input(const std::string &text) {
    std::error_code error;
    return text == "-" || std::filesystem::is_regular_file(text, error);
}

std::string first_bytes(std::istream &in, std::size_t most) {
    std::string first(most, '\0');
    in.read(first.data(), static_cast<std::streamsize>(first.size()));
    first.resize(static_cast<std::size_t>(in.gcount()));
    in.clear();
    in.seekg(0);
    return first;
}

InputFile::InputFile(const std::string &name, std::istream &standard_input)
    : name_(name == "-" ? "standard input" : name) {
    if (name == "-") {
        std::string content = read_bounded(standard_input, name_);
        size_ = content.size();
        stream_ = std::make_unique<std::istringstream>(std::move(content));
        return;
    }
    std::error_code error;
    if (std::filesystem::is_directory(name, error)) {
        throw InputError({name, 0, ""}, "a folder", "a file");
    }
    stream_ = std::make_unique<std::ifstream>(name, std::ios::binary);
    if (!*stream_) {
        throw InputError({name, 0, ""}, "no file that can be read", "an existing, readable file");
    }
    if (!std::filesystem::is_regular_file(name, error)) { // a pipe, which is read once only
        std::string content = read_bounded(*stream_, name_);
        size_ = content.size();
        stream_ = std::make_unique<std::istringstream>(std::move(content));
        return;
    }
    const auto size = std::filesystem::file_size(name, error);
    size_ = error ? 0 : size;
}

void InputFile::rewind() {
    stream_->clear();
    stream_->seekg(0);
}

double InputFile::share_read() const {
    const std::streamoff at =
        stream_->rdbuf()->pubseekoff(0, std::ios::cur, std::ios::in); // no failure at the end
    return size_ > 0 && at >= 0 ? static_cast<double>(at) / static_cast<double>(size_) : 0.0;
}

std::string InputFile::read_all() {
    return read_bounded(*stream_, name_);
}

} // namespace cospot
