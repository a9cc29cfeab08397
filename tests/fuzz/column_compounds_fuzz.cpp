// The compounds on a plate from which `column` plans.
#include "fuzzed.h"
#include "readers/column_table.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    (void)fuzz::accepts_file([&] {
        const ColumnTable table = read_column_compounds(in, fuzz::kFile);
        fuzz::require(!table.compounds.empty(), "a table has rows");
        for (const auto &compound : table.compounds) {
            fuzz::require(compound.rf >= 0.0 && compound.rf <= 1.0, "an R_F lies between 0 and 1");
        }
    });
    return 0;
}
