#include "readers/learn_kind.h"

#include "readers/input_kind.h"
#include "shared/text.h"

#include <filesystem>

namespace cospot {

LearnKind learn_kind(InputFile &file, const std::vector<ColumnAlias> &aliases) {
    const std::string ending = lower_ascii(std::filesystem::path(file.name()).extension().string());
    if (ending == ".sdf" || ending == ".sd") {
        return LearnKind::sdf;
    }
    if (ending == ".smi" || ending == ".smiles") {
        return LearnKind::smiles_list;
    }
    const TableReader table(file.stream(), file.name(),
                            {{"distance_mm"},
                             {"lane"},
                             {"peak"},
                             {"tR", false, "min"},
                             {"smiles"},
                             {"response_factor"},
                             {"start_mL"},
                             {"system"},
                             {"quantity"},
                             {"value"}},
                            aliases);
    file.rewind();
    if (table.has("distance_mm") || table.has("lane")) {
        return LearnKind::plate;
    }
    if (table.has("peak") || table.has("tR")) {
        return LearnKind::chromatogram;
    }
    if (table.has("response_factor")) {
        return LearnKind::responses;
    }
    if (table.has("start_mL")) {
        return LearnKind::column_runs;
    }
    const bool has_values = table.has("system") || table.has("quantity") || table.has("value");
    const std::string maps = chromatogram_maps(table.header());
    if (!has_values && !table.has("smiles") && !maps.empty()) {
        throw InputError({file.name(), table.line(), ""}, "a header of no known kind",
                         "of a chromatogram the columns peak,tR,compound, or --map COLUMN=HEADER "
                         "for what your table calls them; perhaps " +
                             maps);
    }
    return has_values ? LearnKind::measurements : LearnKind::compounds;
}

} // namespace cospot
