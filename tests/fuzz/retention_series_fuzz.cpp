// Retention at several compositions as `resolve` reads it, with and without a hold-up time.
#include "fuzzed.h"
#include "readers/retention_series_table.h"

#include <optional>

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string text = fuzz::text_of(data, size);
    for (const std::optional<double> hold_up_min : {std::optional<double>(), std::optional(1.2)}) {
        std::istringstream in(text);
        (void)fuzz::accepts_file([&] {
            const RetentionSeries series = read_retention_series(in, fuzz::kFile, hold_up_min);
            for (const auto &compound : series.compounds) {
                fuzz::require(compound.points.size() > 1, "each compound has two fractions");
                for (const auto &point : compound.points) {
                    fuzz::require(point.k > 0.0, "each k is above 0");
                }
            }
        });
    }
    return 0;
}
