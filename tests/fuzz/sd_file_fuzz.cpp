// The records of an SD file as `learn --partial` reads them, named by title and by a field; the
// mol blocks themselves are not parsed.
#include "fuzzed.h"
#include "readers/sdf_file.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string text = fuzz::text_of(data, size);
    for (const char *name_field : {"", "NAME"}) {
        std::istringstream in(text);
        SdfFile file(in, fuzz::kFile, name_field);
        for (bool more = true; more;) {
            (void)fuzz::accepts_file([&] {
                CompoundRow row;
                more = file.next(row);
                fuzz::require(!more || !row.compound.empty(), "a record has a name");
            });
        }
    }
    return 0;
}
