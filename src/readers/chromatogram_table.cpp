#include "readers/chromatogram_table.h"

#include "readers/role_column.h"
#include "shared/number.h"
#include "shared/quantity.h"
#include "shared/table.h"
#include "shared/text.h"

#include <set>
#include <utility>

namespace cospot {

namespace {

void check_limits(const TableReader &table, const Peak &peak) {
    if (peak.start_min && *peak.start_min > peak.retention_time_min) {
        throw InputError(table.where("start"), exact_text(*peak.start_min),
                         "a start before the peak at " + exact_text(peak.retention_time_min));
    }
    if (peak.end_min && *peak.end_min < peak.retention_time_min) {
        throw InputError(table.where("end"), exact_text(*peak.end_min),
                         "an end behind the peak at " + exact_text(peak.retention_time_min));
    }
}

/// The compound that a peak is known to be; empty for a peak of the sample.
std::string read_standard(const TableReader &table) {
    const std::string_view compound = table.text("compound");
    const RowRole role = read_role(table, compound.empty() ? RowRole::sample : RowRole::standard);
    if (role == RowRole::standard && compound.empty()) {
        throw InputError(table.where("compound"), "nothing", "the compound that the standard is");
    }
    return role == RowRole::standard ? std::string(compound) : std::string();
}

Peak read_peak(const TableReader &table) {
    Peak peak;
    peak.name = table.required_text("peak", "the number or name of the peak");
    peak.compound = read_standard(table);
    peak.retention_time_min = table.number("tR", "a retention time in min");
    check_physical(Quantity::tR, peak.retention_time_min, table.where("tR"));
    peak.area = table.optional_amount("area", "a peak area");
    peak.start_min = table.optional_number("start", "the start of the peak in min");
    peak.end_min = table.optional_number("end", "the end of the peak in min");
    peak.height = table.optional_amount("height", "a peak height");
    peak.width_half_min = table.optional_amount("width_half", "a width at half height in min");
    peak.symmetry = table.optional_amount("symmetry", "a symmetry factor");
    peak.line = table.line();
    check_limits(table, peak);
    return peak;
}

} // namespace

std::vector<Peak> read_chromatogram(std::istream &in, const std::string &file) {
    TableReader table(in, file,
                      {{"peak", true},
                       {"tR", true},
                       {"compound", false},
                       {"role", false},
                       {"area", false},
                       {"start", false},
                       {"end", false},
                       {"height", false},
                       {"width_half", false},
                       {"symmetry", false}});
    std::vector<Peak> peaks;
    std::set<std::string> seen;
    while (table.next()) {
        Peak peak = read_peak(table);
        if (!seen.insert(peak.name).second) {
            throw InputError(table.where("peak"), "peak " + in_quotes(peak.name) + " again",
                             "each peak once");
        }
        peaks.push_back(std::move(peak));
    }
    if (peaks.empty()) {
        throw InputError({file, table.line(), ""}, "a header without rows", "one row a peak");
    }
    return peaks;
}

} // namespace cospot
