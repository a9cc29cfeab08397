#include "readers/plate_table.h"

#include "quantities/plate.h"
#include "readers/cas_column.h"
#include "readers/cells_above.h"
#include "readers/date_column.h"
#include "readers/instrument_number.h"
#include "readers/measured_amount.h"
#include "readers/named_standards.h"
#include "readers/plate_spots.h"
#include "shared/grouped.h"
#include "shared/left_out.h"
#include "shared/line_list.h"
#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

namespace cospot {

namespace {

/// Takes the label of a co-spot apart: "flask 7 + vanillin".
void read_cospot(const TableReader &table, PlateSpot &spot) {
    const std::size_t plus = spot.label.rfind(" + ");
    if (plus == std::string::npos) {
        throw InputError(table.where("label"), in_quotes(spot.label),
                         fmt::format("the sample and the standard of a co-spot, as in flask 7 + "
                                     "vanillin; --map \"SAMPLE + STANDARD\"={} says what a "
                                     "shorter label means",
                                     in_quotes(spot.label)));
    }
    spot.over = trimmed(std::string_view(spot.label).substr(plus + 3));
    spot.label = trimmed(std::string_view(spot.label).substr(0, plus));
}

void check_front(const TableReader &table, double front_mm) {
    if (front_mm < kMinFront_mm || front_mm > kMaxFront_mm) {
        throw InputError(table.where("front_mm"), exact_text(front_mm),
                         "the distance of the front, 10 to 2000 mm (a column in cm says so in its "
                         "header: front (cm))");
    }
}

/// Half of the scale says nothing.
std::optional<double> read_rf_uncertainty(const TableReader &table) {
    constexpr double largest = 0.5;
    const auto uncertainty =
        table.optional_number("uncertainty", "the standard uncertainty of R_F");
    if (uncertainty && (*uncertainty <= 0.0 || *uncertainty > largest)) {
        table.add_fault({table.where("uncertainty"), exact_text(*uncertainty),
                         "a standard uncertainty of R_F above 0, at most 0.5"});
    }
    return uncertainty;
}

/// The column in which the places of the spots stand.
const char *column_of_places(const TableReader &table) {
    return table.has("distance_mm") ? "distance_mm" : table.has("Rf") ? "Rf" : "hRf";
}

/// R_F as it was noted; its spot is given the distance on a front that nobody measured.
void read_noted_rf(const TableReader &table, std::string_view column, PlateSpot &spot) {
    const bool is_hundredfold = column == "hRf";
    const double scale = is_hundredfold ? 100.0 : 1.0;
    const double noted = table.reading(column, is_hundredfold ? "hR_F" : "R_F");
    spot.is_rough = table.is_rough(column);
    if (noted < 0.0 || noted > scale) {
        table.add_fault({table.where(column), exact_text(noted),
                         is_hundredfold ? "hR_F from 0 to 100"
                                        : "R_F from 0 to 1 (100 R_F stands in a column hRf)"});
    }
    spot.noted_rf = noted / scale;
    spot.front_mm = kFrontOfNotedRf_mm;
    spot.distance_mm = *spot.noted_rf * kFrontOfNotedRf_mm;
}

void read_distance(const TableReader &table, PlateSpot &spot) {
    spot.distance_mm = table.reading("distance_mm", "the distance of the spot in mm");
    spot.is_rough = table.is_rough("distance_mm");
    if (spot.front_mm) {
        table.keep_fault([&] { check_front(table, *spot.front_mm); });
    }
    table.keep_fault([&] { check_distance(spot, table.where("distance_mm")); });
}

RowRole role_of(const TableReader &table, const CellsAbove &cells, RowRole above,
                NamedStandards &named) {
    if (cells.has_role_above()) {
        return above;
    }
    return read_role(table, named.holds(cells.label()) ? RowRole::standard : RowRole::sample, true);
}

/// What a row says of its spot, but for the place.
PlateSpot read_row(const TableReader &table, const CellsAbove &cells, RowRole role,
                   const std::string &stain) {
    PlateSpot spot;
    spot.plate = cells.plate();
    spot.date = read_past_date(table);
    spot.system = table.text("system");
    spot.lane = cells.lane();
    if (spot.lane.empty()) {
        (void)table.required_text("lane", "the number or name of the lane");
    }
    spot.label = cells.label();
    spot.role = role;
    if (table.has("distance_mm")) {
        spot.front_mm =
            table.optional_number("front_mm", "the distance of the solvent front in mm");
    }
    spot.uncertainty = read_rf_uncertainty(table);
    spot.area = read_measured_amount(table, "area", "the area of a spot").value;
    check_of_instrument(table, "area", spot.area);
    (void)read_further_evidence(table, spot.further, stain);
    spot.line = table.line();
    if (spot.role == RowRole::standard) {
        spot.smiles = table.text("smiles");
        spot.cas = read_registry_number(table);
    }
    if (spot.role == RowRole::standard && spot.label.empty()) {
        table.add_fault({table.where("label"), "nothing", "the name of the standard's compound"});
    }
    if (spot.role == RowRole::cospot) {
        table.keep_fault([&] { read_cospot(table, spot); });
    }
    return spot;
}

/// Reads the rows of a plate's table one after the other.
class PlateRows {
public:
    PlateRows(TableReader &table, const TableForm &form)
        : table_(&table), places_(column_of_places(table)),
          standards_(form.standards, form.is_same_compound), stain_(form.stain) {}

    void read(PlateSpots &spots) {
        has_rows_ = true;
        cells_.take(*table_);
        role_ = role_of(*table_, cells_, role_, standards_);
        PlateSpot spot = read_row(*table_, cells_, role_, stain_);
        if (says_nothing(table_->written(places_))) {
            keep_unseen();
            spots.add_empty_lane(*table_, spot);
            return;
        }
        has_spots_ = true;
        if (table_->has("spot")) {
            spot.spot = table_->required_text(
                "spot", table_->has("label") ? "the number or name of the spot"
                                             : "the number or name of the spot (--map "
                                               "label=HEADER where this column says what was "
                                               "spotted, as samples and standards)");
        }
        if (table_->has("distance_mm")) {
            read_distance(*table_, spot);
        } else {
            read_noted_rf(*table_, places_, spot);
        }
        spots.add(*table_, std::move(spot));
    }

    /// The lane of the row, as messages name it; empty where it can't be told.
    [[nodiscard]] std::string lane() const {
        return table_->is_row_whole() && !cells_.lane().empty()
                   ? lane_name(cells_.plate(), cells_.lane())
                   : "";
    }

    [[nodiscard]] bool has_rows() const { return has_rows_; }
    [[nodiscard]] bool has_no_spot() const { return !has_spots_; }

    [[nodiscard]] std::vector<std::string> notes() const {
        std::vector<std::string> notes = cells_.notes();
        if (!unseen_.empty()) {
            notes.push_back(fmt::format("a row without a spot, in column {}, is left out ({}){}",
                                        places_, line_list(unseen_), remarks_on_unseen_));
        }
        if (!table_->rough_lines().empty()) {
            notes.push_back(rough_words(places_, table_->rough_lines()));
        }
        const std::vector<std::string> unnamed = standards_.notes();
        notes.insert(notes.end(), unnamed.begin(), unnamed.end());
        for (const char *column : {"Rf", "hRf", "front_mm"}) {
            const bool is_front = column == std::string_view("front_mm");
            if (table_->has(column) && column != places_ &&
                !(is_front && table_->has("distance_mm"))) {
                notes.push_back(fmt::format("column {} is not used: the places of the spots stand "
                                            "in column {}",
                                            column, places_));
            }
        }
        return notes;
    }

private:
    /// A row without a spot, with what its lane was noted to be.
    void keep_unseen() {
        unseen_.insert(table_->line());
        const std::string words = table_->unread_words();
        if (!words.empty()) {
            remarks_on_unseen_ += fmt::format(
                "; lane {}: {}", lane_name(cells_.plate(), cells_.lane()), in_quotes(words));
        }
    }

    TableReader *table_;
    std::string_view places_; ///< a column
    NamedStandards standards_;
    std::string stain_; ///< of spots whose rows do not name theirs
    CellsAbove cells_;
    RowRole role_ = RowRole::sample; ///< of the last row
    std::set<std::size_t> unseen_;   ///< lines
    std::string remarks_on_unseen_;  ///< what other columns say of them
    bool has_rows_ = false;
    bool has_spots_ = false;
};

} // namespace

std::string rough_words(std::string_view column, const std::set<std::size_t> &lines) {
    static_assert(kRoughFactor == 2.0);
    return fmt::format(
        "what is stated as \"ca.\" in column {} has twice the usual uncertainty ({})", column,
        line_list(lines));
}

std::vector<TableColumn> plate_columns() {
    return {{"plate"},    {"date"},    {"lane", true}, {"label"},       {"spot"},   {"distance_mm"},
            {"front_mm"}, {"Rf"},      {"hRf"},        {"role"},        {"area"},   {"uv254"},
            {"stain"},    {"stained"}, {"system"},     {"uncertainty"}, {"smiles"}, {"cas"}};
}

std::vector<std::vector<std::string>> plate_places() {
    return {{"distance_mm"}, {"Rf"}, {"hRf"}};
}

std::vector<PlateSpot> read_plate(std::istream &in, const std::string &file, const TableForm &form,
                                  std::vector<std::string> *notes) {
    TableReader table(in, file, plate_columns(), form.aliases, plate_places());
    PlateRows rows(table, form);
    PlateSpots spots;
    LeftOut left_out(form.is_partial);
    for_each_row(
        table, [&] { rows.read(spots); },
        [&](const InputError &fault) { return left_out.take(rows.lane(), fault); });
    if (!rows.has_rows()) {
        throw InputError({file, table.line(), ""}, "a header without rows", "one row a spot");
    }
    if (rows.has_no_spot()) {
        throw InputError({file, table.line(), ""}, "no spot in any row",
                         "where at least one spot lies");
    }
    spots.set_fronts(file, left_out);
    spots.check_standards(file, left_out);
    spots.leave_out(left_out);
    spots.set_plates();
    if (notes != nullptr) {
        *notes = notes_on(table, left_out, "lane");
        const std::vector<std::string> more = rows.notes();
        notes->insert(notes->end(), more.begin(), more.end());
    }
    return std::move(spots).taken();
}

std::vector<std::vector<PlateSpot>> by_plate(std::vector<PlateSpot> spots) {
    return grouped(std::move(spots), [](const PlateSpot &spot) { return spot.plate; });
}

quantities::Uncertain rf_of(const PlateSpot &spot, double reading_error_mm) {
    const double factor = spot.is_rough ? kRoughFactor : 1.0;
    if (spot.noted_rf) {
        return {*spot.noted_rf, spot.uncertainty.value_or(factor * kNotedRfError)};
    }
    const double front_mm = spot.front_mm.value();
    quantities::Uncertain rf = quantities::retardation_factor(std::min(spot.distance_mm, front_mm),
                                                              front_mm, reading_error_mm);
    rf.standard_uncertainty = spot.uncertainty.value_or(factor * rf.standard_uncertainty);
    return rf;
}

double stated_front_mm(const PlateSpot &spot, const std::string &file) {
    if (!spot.front_mm) {
        throw InputError({file, spot.line, "front_mm"}, "no front",
                         "the distance of the solvent front, in one row of the plate");
    }
    return *spot.front_mm;
}

} // namespace cospot
