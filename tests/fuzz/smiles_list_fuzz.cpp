// A list of SMILES with names as `learn --partial` reads it; the SMILES themselves are not parsed.
#include "fuzzed.h"
#include "readers/smiles_list.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    SmilesList list(in, fuzz::kFile);
    for (bool more = true; more;) {
        (void)fuzz::accepts_file([&] {
            CompoundRow row;
            more = list.next(row);
            fuzz::require(!more || (!row.smiles.empty() && !row.compound.empty()),
                          "a row has a structure and a name");
        });
    }
    return 0;
}
