#include "readers/chromatogram_table.h"

#include "readers/cas_column.h"
#include "readers/date_column.h"
#include "readers/instrument_number.h"
#include "readers/measured_amount.h"
#include "readers/no_compound.h"
#include "readers/role_column.h"
#include "shared/grouped.h"
#include "shared/left_out.h"
#include "shared/number.h"
#include "shared/quantity.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
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

/// What the table calls a peak, and whether it is a standard.
void read_name(const TableReader &table, Peak &peak) {
    const std::string_view text = table.text("compound");
    peak.called_unretained = names_unretained(text) ? text : "";
    peak.named = names_no_compound(text) || names_unretained(text) ? "" : text;
    const RowRole role = read_role(table, peak.named.empty() ? RowRole::sample : RowRole::standard);
    if (role != RowRole::standard || !peak.called_unretained.empty()) {
        return;
    }
    if (peak.named.empty()) {
        table.add_fault({table.where("compound"), text.empty() ? "nothing" : in_quotes(text),
                         "the compound that the standard is"});
    }
    peak.compound = peak.named;
    peak.smiles = table.text("smiles");
    peak.cas = read_registry_number(table);
    peak.is_stated_standard = !table.text("role").empty();
}

/// How many digits follow the decimal sign.
int decimals_of(std::string_view number) {
    const std::size_t sign = number.find_last_of(".,");
    if (sign == std::string_view::npos) {
        return 0;
    }
    const std::string_view digits = number.substr(sign + 1);
    const std::size_t end = digits.find_first_not_of("0123456789");
    return static_cast<int>(end == std::string_view::npos ? digits.size() : end);
}

Peak read_peak(const TableReader &table) {
    Peak peak;
    peak.run = table.text("run");
    peak.date = read_past_date(table);
    if (table.has("peak")) {
        peak.name = table.required_text("peak", "the number or name of the peak");
    }
    read_name(table, peak);
    peak.retention_time_min = table.number("tR", "a retention time in min");
    table.keep_fault(
        [&] { check_physical(Quantity::tR, peak.retention_time_min, table.where("tR")); });
    peak.uncertainty_min =
        table.optional_amount("uncertainty", "the standard uncertainty of the time in min");
    const MeasuredAmount area = read_measured_amount(table, "area", "a peak area");
    peak.area = area.value;
    peak.is_area_below = area.is_below;
    const MeasuredAmount ppm = read_measured_amount(table, "ppm", "mg in a kg of the sample");
    peak.ppm = ppm.value;
    peak.is_ppm_below = ppm.is_below;
    peak.ppm_below = ppm.limit;
    peak.is_ppm_undetected = ppm.is_undetected;
    peak.start_min = table.optional_number("start", "the start of the peak in min");
    peak.end_min = table.optional_number("end", "the end of the peak in min");
    peak.height = read_measured_amount(table, "height", "a peak height").value;
    peak.width_half_min = table.optional_amount("width_half", "a width at half height in min");
    peak.symmetry = table.optional_amount("symmetry", "a symmetry factor");
    peak.line = table.line();
    check_of_instrument(table, "tR", peak.retention_time_min);
    check_of_instrument(table, "uncertainty", peak.uncertainty_min);
    check_of_instrument(table, "area", peak.area);
    check_of_instrument(table, "ppm", peak.ppm);
    check_of_instrument(table, "start", peak.start_min);
    check_of_instrument(table, "end", peak.end_min);
    check_of_instrument(table, "height", peak.height);
    check_of_instrument(table, "width_half", peak.width_half_min);
    check_of_instrument(table, "symmetry", peak.symmetry);
    table.keep_fault([&] { check_limits(table, peak); });
    return peak;
}

std::vector<TableColumn> peak_columns() {
    return {{"run", false},
            {"date", false},
            {"peak", false},
            {"tR", true, "min"},
            {"uncertainty", false, "min"},
            {"compound", false},
            {"smiles", false},
            {"cas", false},
            {"role", false},
            {"area", false},
            {"ppm", false},
            {"start", false, "min"},
            {"end", false, "min"},
            {"height", false},
            {"width_half", false, "min"},
            {"symmetry", false}};
}

/// The peaks of a file while they are read.
class Peaks {
public:
    void add(const TableReader &table, Peak peak) {
        std::size_t &count = counts_[peak.run];
        if (!table.has("peak")) {
            peak.name = std::to_string(++count);
        }
        if (!seen_.emplace(peak.run, peak.name).second) {
            throw InputError(table.where("peak"), "peak " + in_quotes(peak.name) + " again",
                             "each peak of a run once");
        }
        decimals_ = std::max(decimals_, decimals_of(table.text("tR"))); // zeros may be dropped
        for (const char *column : {"area", "ppm", "height"}) {
            if (amount_below(table.text(column)).is_below) {
                amounts_below_.push_back(
                    fmt::format("{} of line {}", in_quotes(table.text(column)), table.line()));
            }
        }
        peaks_.push_back(std::move(peak));
    }

    void leave_out(const LeftOut &left_out) {
        std::erase_if(peaks_, [&](const Peak &peak) { return left_out.holds(peak.run); });
    }

    [[nodiscard]] bool is_empty() const { return peaks_.empty(); }

    /// What was read as no amount; empty where nothing was.
    [[nodiscard]] std::string note_on_amounts() const {
        constexpr std::size_t most = 6;
        const std::vector<std::string> said(
            amounts_below_.begin(), amounts_below_.begin() + static_cast<std::ptrdiff_t>(std::min(
                                                                 most, amounts_below_.size())));
        return said.empty()
                   ? ""
                   : fmt::format("read as no amount, too little to be measured: {}{}",
                                 fmt::join(said, ", "),
                                 amounts_below_.size() > most
                                     ? fmt::format(" and {} more", amounts_below_.size() - most)
                                     : "");
    }

    /// `minutes` is the unit of the file's times. Even within half a unit of the last digit (JCGM
    /// 100:2008, 4.3.7). No data system rounds to whole minutes: these were typed, and say nothing
    /// of digits.
    std::vector<Peak> with_rounding(double minutes) && {
        const bool is_typed = decimals_ == 0 && minutes == 1.0;
        for (Peak &peak : peaks_) {
            peak.rounding_min =
                is_typed ? 0.0 : minutes * 0.5 * std::pow(10.0, -decimals_) / std::numbers::sqrt3;
        }
        return std::move(peaks_);
    }

private:
    std::vector<Peak> peaks_;
    std::set<std::pair<std::string, std::string>> seen_;
    std::map<std::string, std::size_t> counts_;
    std::vector<std::string> amounts_below_; ///< cells that say so
    int decimals_ = 0;
};

} // namespace

std::vector<Peak> read_chromatogram(std::istream &in, const std::string &file,
                                    const TableForm &form, std::vector<std::string> *notes) {
    TableReader table(in, file, peak_columns(), form.aliases);
    Peaks peaks;
    LeftOut left_out(form.is_partial);
    bool has_rows = false;
    for_each_row(
        table,
        [&] {
            has_rows = true;
            peaks.add(table, read_peak(table));
        },
        [&](const InputError &fault) {
            return left_out.take(std::string(table.text("run")), fault);
        });
    if (!has_rows) {
        throw InputError({file, table.line(), ""}, "a header without rows", "one row a peak");
    }
    peaks.leave_out(left_out);
    left_out.check_rest(!peaks.is_empty(), file, "run");
    if (notes != nullptr) {
        *notes = notes_on(table, left_out, "run");
        if (std::string note = peaks.note_on_amounts(); !note.empty()) {
            notes->push_back(std::move(note));
        }
    }
    std::vector<Peak> read = std::move(peaks).with_rounding(table.factor("tR"));
    state_dates(read, [](const Peak &peak) { return std::optional(peak.run); });
    return read;
}

std::vector<std::vector<Peak>> by_run(std::vector<Peak> peaks) {
    return grouped(std::move(peaks), [](const Peak &peak) { return peak.run; });
}

} // namespace cospot
