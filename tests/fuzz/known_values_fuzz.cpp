// The long table of known values as `learn --partial` reads it: it goes on behind a faulty row.
#include "fuzzed.h"
#include "readers/measurement_table.h"

#include <optional>

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    std::optional<MeasurementTable> table;
    (void)fuzz::accepts_file([&] { table.emplace(in, fuzz::kFile, std::vector<ColumnAlias>{}); });
    for (bool more = table.has_value(); more;) {
        (void)fuzz::accepts_file([&] {
            MeasurementRow row;
            more = table->next(row);
            if (more) {
                check_physical(row.quantity, row.value, row.where);
                fuzz::require(!row.compound.empty() && !row.system.empty(), "a row is complete");
            }
        });
    }
    return 0;
}
