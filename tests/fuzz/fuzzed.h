#pragma once

#include "shared/error.h"

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <sstream>
#include <string>
#include <string_view>

namespace cospot::fuzz {

/// The name under which the readers see the fuzzed text.
inline constexpr const char *kFile = "fuzzed";

/// A promise of the code: where it is broken, the run ends with a finding.
inline void require(bool holds, const char *promise) {
    if (!holds) {
        std::fprintf(stderr, "broken promise: %s\n", promise);
        std::abort();
    }
}

/// Whether the work ends without InputError, the one exception that bad input may cause; it has to
/// say what was found and what was expected.
template <typename Work> bool accepts(const Work &work) {
    try {
        work();
    } catch (const InputError &error) {
        require(!error.found().empty(), "an error says what was found");
        require(!error.expected().empty(), "an error says what was expected");
        return false;
    }
    return true;
}

/// As `accepts`, of a reader of a file: an error has to name the file and a line or column as well.
template <typename Work> bool accepts_file(const Work &work) {
    return accepts([&] {
        try {
            work();
        } catch (const InputError &error) {
            const Where &where = error.where();
            require(where.file == kFile, "an error names the file");
            require(where.line > 0 || !where.column.empty(), "an error names a line or a column");
            throw;
        }
    });
}

/// What libFuzzer hands over, as a text.
inline std::string text_of(const std::uint8_t *data, std::size_t size) {
    return {reinterpret_cast<const char *>(data), size};
}

/// A part of a fuzzed text and the rest.
struct Halves {
    std::string front;
    std::string back;
};

/// Divided at the first line "---"; without one, the rest is empty.
inline Halves halves_of(const std::string &text) {
    constexpr std::string_view divider = "---\n";
    const std::size_t at = text.find(divider);
    return at == std::string::npos ? Halves{text, ""}
                                   : Halves{text.substr(0, at), text.substr(at + divider.size())};
}

} // namespace cospot::fuzz

/// Called by libFuzzer with each input.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size);
