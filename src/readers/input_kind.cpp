#include "readers/input_kind.h"

#include "shared/table.h"
#include "shared/usual_headers.h"

#include <boost/interprocess/streams/bufferstream.hpp>

namespace cospot {

InputKind input_kind(const std::string &content, const std::string &file,
                     const std::vector<ColumnAlias> &aliases) {
    boost::interprocess::ibufferstream in(content.data(), content.size()); // no copy
    const TableReader table(
        in, file, {{"distance_mm"}, {"lane"}, {"feature"}, {"peak"}, {"tR", false, "min"}},
        aliases);
    if (table.has("distance_mm") || table.has("lane")) {
        return InputKind::plate;
    }
    if (table.has("feature")) {
        return InputKind::feature_table;
    }
    if (table.has("peak") || table.has("tR")) {
        return InputKind::chromatogram;
    }
    const std::string maps = chromatogram_maps(table.header());
    throw InputError(
        {file, table.line(), ""}, "a header of no known kind",
        "a plate (lane,label,spot,distance_mm,front_mm), a chromatogram (peak,tR,area) "
        "or a long table (sample,feature,system,quantity,value); --map COLUMN=HEADER says "
        "what your table calls a column" +
            (maps.empty() ? "" : "; perhaps " + maps));
}

std::string chromatogram_maps(const std::vector<std::string> &headers) {
    return proposed_maps(headers, {"tR"}).empty()
               ? ""
               : proposed_maps(headers, {"tR", "peak", "area", "run", "date", "compound", "ppm"});
}

} // namespace cospot
