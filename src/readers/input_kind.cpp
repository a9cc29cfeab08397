#include "readers/input_kind.h"

#include "readers/plate_table.h"

#include "shared/table.h"
#include "shared/usual_headers.h"

#include <boost/interprocess/streams/bufferstream.hpp>

namespace cospot {

namespace {

/// The columns by which the kinds are told.
std::vector<TableColumn> columns_of_kinds() {
    std::vector<TableColumn> columns = plate_columns();
    for (TableColumn &column : columns) {
        column.required = false;
    }
    for (const char *name : {"sample", "feature", "quantity", "value", "peak", "run"}) {
        columns.push_back({name});
    }
    columns.push_back({"tR", false, "min"});
    return columns;
}

/// What the reader of each kind needs of a header.
std::vector<std::vector<std::string>> headers_of_kinds() {
    std::vector<std::vector<std::string>> headers{
        {"sample", "feature", "system", "quantity", "value"}, {"tR"}};
    for (const std::vector<std::string> &places : plate_places()) {
        headers.push_back(places);
        headers.back().emplace_back("lane");
    }
    return headers;
}

} // namespace

InputKind input_kind(const std::string &content, const std::string &file,
                     const std::vector<ColumnAlias> &aliases) {
    boost::interprocess::ibufferstream in(content.data(), content.size()); // no copy
    const TableReader table(in, file, columns_of_kinds(), aliases, headers_of_kinds());
    if (table.has("distance_mm") || table.has("lane")) {
        return InputKind::plate;
    }
    if (table.has("feature")) {
        return InputKind::feature_table;
    }
    if (table.has("peak") || table.has("tR")) {
        return InputKind::chromatogram;
    }
    std::string maps = chromatogram_maps(table.header());
    maps = maps.empty() ? plate_maps(table.header()) : maps;
    throw InputError(
        {file, table.line(), ""}, "a header of no known kind",
        "a plate (lane,label,spot,distance_mm,front_mm or Rf), a chromatogram (peak,tR,area) "
        "or a long table (sample,feature,system,quantity,value); --map COLUMN=HEADER says "
        "what your table calls a column" +
            (maps.empty() ? "" : "; perhaps " + maps));
}

std::string plate_maps(const std::vector<std::string> &headers) {
    return proposed_maps(headers, {"distance_mm", "Rf", "hRf"}).empty()
               ? ""
               : proposed_maps(headers, {"plate", "date", "lane", "label", "distance_mm",
                                         "front_mm", "Rf", "role", "system", "stain"});
}

std::string chromatogram_maps(const std::vector<std::string> &headers) {
    return proposed_maps(headers, {"tR"}).empty()
               ? ""
               : proposed_maps(headers, {"tR", "peak", "area", "run", "date", "compound", "ppm"});
}

} // namespace cospot
