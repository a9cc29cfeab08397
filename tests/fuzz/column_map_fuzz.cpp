// What the user calls the columns (--map), a line each, then a line "---" and a table.
#include "fuzzed.h"
#include "readers/column_alias.h"
#include "readers/measurement_table.h"

#include <vector>

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const fuzz::Halves halves = fuzz::halves_of(fuzz::text_of(data, size));
    std::vector<ColumnAlias> aliases;
    std::istringstream lines(halves.front);
    for (std::string line; std::getline(lines, line);) {
        (void)fuzz::accepts_file([&] {
            aliases.push_back(parse_column_alias(line, {fuzz::kFile, 1, ""}));
        });
    }
    std::istringstream in(halves.back);
    (void)fuzz::accepts_file([&] {
        MeasurementTable table(in, fuzz::kFile, aliases);
        for (MeasurementRow row; table.next(row);) {
        }
    });
    return 0;
}
