// A table of structures without values as `learn --partial` reads it.
#include "fuzzed.h"
#include "readers/compound_table.h"
#include "shared/registry_number.h"

#include <optional>

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    std::optional<CompoundTable> table;
    (void)fuzz::accepts_file([&] { table.emplace(in, fuzz::kFile, std::vector<ColumnAlias>{}); });
    for (bool more = table.has_value(); more;) {
        (void)fuzz::accepts_file([&] {
            CompoundRow row;
            more = table->next(row);
            fuzz::require(row.cas.empty() || is_registry_number(row.cas), "numbers are checked");
        });
    }
    return 0;
}
