// A simulated distillation as `distil` makes it: a ladder of alkanes, a line "---", a list of
// peaks.
#include "distil/distilled_sample.h"
#include "fuzzed.h"
#include "readers/ladder_table.h"

#include <cmath>
#include <optional>

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const fuzz::Halves files = fuzz::halves_of(fuzz::text_of(data, size));
    std::istringstream ladder_file(files.front);
    std::istringstream peak_file(files.back);
    std::optional<quantities::BoilingScale> scale;
    (void)fuzz::accepts([&] { // a scale has no place of its own: the command adds it
        scale = quantities::boiling_scale(read_ladder(ladder_file, fuzz::kFile,
                                                      quantities::IndexScale::n_alkane,
                                                      quantities::LadderGaps::interpolate));
    });
    if (!scale) {
        return 0;
    }
    (void)fuzz::accepts_file([&] {
        const auto sample = distillation::distil(
            fuzz::kFile, read_chromatogram(peak_file, fuzz::kFile), *scale, std::nullopt);
        using Place = distillation::Recovered::Place;
        for (const distillation::Recovered &row : sample.recovered) {
            fuzz::require(std::isfinite(row.celsius.value_or(0.0)), "temperatures are finite");
            fuzz::require(row.per_cent + 0.1 > sample.before_per_cent ||
                              row.place == Place::below_scale,
                          "what boils below the scale is said to");
        }
    });
    return 0;
}
