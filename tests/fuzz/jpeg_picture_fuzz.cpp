// A JPEG file, as a photo of a plate comes.
#include "fuzzed_pictures.h"

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    cospot::fuzz::read_fuzzed_picture(cospot::fuzz::text_of(data, size));
    return 0;
}
