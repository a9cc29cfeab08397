// A ladder of homologues on each index scale, with and without gaps.
#include "fuzzed.h"
#include "readers/ladder_table.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    using quantities::IndexScale;
    const std::string text = fuzz::text_of(data, size);
    for (const IndexScale scale :
         {IndexScale::n_alkane, IndexScale::fatty_acid_methyl_ester, IndexScale::alkyl_aryl_ketone,
          IndexScale::nitroalkane_1, IndexScale::ketoalkane_2}) {
        for (const auto gaps :
             {quantities::LadderGaps::refuse, quantities::LadderGaps::interpolate}) {
            std::istringstream in(text);
            (void)fuzz::accepts_file([&] {
                const quantities::Ladder ladder = read_ladder(in, fuzz::kFile, scale, gaps);
                quantities::check_ladder(ladder, gaps);
                fuzz::require(ladder.scale == scale, "a ladder keeps its scale");
            });
        }
    }
    return 0;
}
