// The header by which `identify` and `learn` tell the kind of a file.
#include "fuzzed.h"
#include "readers/input_kind.h"
#include "readers/learn_kind.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string text = fuzz::text_of(data, size);
    (void)fuzz::accepts_file([&] { (void)input_kind(text, fuzz::kFile); });
    (void)fuzz::accepts([&] {
        std::istringstream in(text);
        InputFile file("-", in);
        (void)learn_kind(file, {});
        fuzz::require(file.read_all() == text, "the file is back at its start");
    });
    return 0;
}
