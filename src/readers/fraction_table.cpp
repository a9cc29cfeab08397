#include "readers/fraction_table.h"

#include "quantities/plate.h"
#include "readers/instrument_number.h"
#include "readers/plate_table.h"
#include "readers/role_column.h"
#include "readers/spot_intensity.h"
#include "shared/line_list.h"
#include "shared/number.h"
#include "shared/table.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <tuple>

namespace cospot {

namespace {

constexpr std::size_t kMostSpots = 100; // of one lane
constexpr double kLargestAmount = 1e9;

enum class Kind { rf, distance, signal_by_fraction, signal_by_volume };

Kind kind_of(const TableReader &table) {
    const bool has_fraction = table.has("fraction");
    const bool has_rf = table.has("Rf");
    const bool has_distance = table.has("distance_mm") || table.has("front_mm");
    if (static_cast<int>(has_rf) + static_cast<int>(has_distance) +
            static_cast<int>(table.has("signal")) >
        1) {
        throw InputError({table.file(), table.line(), ""}, "a header with more than one of them",
                         "Rf, or distance_mm and front_mm, or signal");
    }
    if (table.has("signal") && (has_fraction || table.has("volume_mL"))) {
        return has_fraction ? Kind::signal_by_fraction : Kind::signal_by_volume;
    }
    if (has_fraction && has_rf) {
        return Kind::rf;
    }
    if (has_fraction && table.has("distance_mm") && table.has("front_mm")) {
        return Kind::distance;
    }
    throw InputError({table.file(), table.line(), ""}, "a header without the columns of a kind",
                     "fraction,Rf or fraction,distance_mm,front_mm or fraction,signal or "
                     "volume_mL,signal (optional: plate,lane,spot,intensity,mass_mg,volume_mL)");
}

/// The fractions of a row, the first and the last: of most rows one, of "5-7" three.
struct Range {
    int first = 0;
    int last = 0;
};

std::optional<Range> fraction_range(std::string_view text) {
    if (const auto number = fraction_number(text)) {
        return Range{*number, *number};
    }
    for (const std::string_view dash : {"-", "–", "—"}) {
        const std::size_t at = text.find(dash);
        if (at == std::string_view::npos) {
            continue;
        }
        const auto first = fraction_number(text.substr(0, at));
        const auto last = fraction_number(text.substr(at + dash.size()));
        if (first && last && *first < *last) {
            return Range{*first, *last};
        }
    }
    return std::nullopt;
}

Range read_fractions_of_row(const TableReader &table) {
    const std::string expected =
        fmt::format("the number of a fraction, a whole number from 1 to {}, or several as in 5-7",
                    kMostFractions);
    const std::string_view text = table.required_text("fraction", expected);
    const auto range = fraction_range(text);
    if (!range) {
        throw InputError(table.where("fraction"), in_quotes(text), expected);
    }
    return *range;
}

/// Masses, volumes and signals are of one fraction each.
void check_is_one(const TableReader &table, const Range &range) {
    for (const char *column : {"mass_mg", "volume_mL", "signal"}) {
        if (range.last > range.first && !table.text(column).empty()) {
            throw InputError(table.where("fraction"),
                             fmt::format("{} with a value in column {}",
                                         in_quotes(table.text("fraction")), column),
                             "a row for each fraction: the value is of one of them");
        }
    }
}

std::optional<double> read_amount(const TableReader &table, const std::string &column,
                                  const std::string &what) {
    const auto value = table.optional_number(column, what);
    if (value && (*value < 0.0 || *value > kLargestAmount)) {
        throw InputError(table.where(column), exact_text(*value), what + ", from 0");
    }
    return value;
}

/// Keeps an amount of a fraction; it may stand in several rows, but not with several values.
void keep_amount(const TableReader &table, const std::string &column, std::optional<double> value,
                 int fraction, std::optional<double> &kept) {
    if (value && kept && *value != *kept) {
        throw InputError(
            table.where(column), exact_text(*value),
            fmt::format("{} as given before for fraction {}", exact_text(*kept), fraction));
    }
    kept = value ? value : kept;
}

/// The R_F of the spots of a row: none where nothing was seen, several where several columns have
/// them.
std::vector<double> read_rfs(const TableReader &table) {
    const std::string expected = "an R_F from 0 to 1";
    const std::vector<double> rfs = table.readings("Rf", expected);
    for (const double rf : rfs) {
        if (rf < 0.0 || rf > 1.0) {
            throw InputError(table.where("Rf"), exact_text(rf),
                             rf > 1.0 ? expected + " (hR_F divided by 100)" : expected);
        }
    }
    return rfs;
}

/// A front that is given once holds for the rows of its plate that follow.
double read_front(const TableReader &table, std::map<std::string, double> &front_of_plate) {
    const std::string plate(table.text("plate"));
    const auto stated =
        table.optional_number("front_mm", "the distance of the solvent front in mm");
    if (!stated && !front_of_plate.contains(plate)) {
        throw InputError(table.where("front_mm"), "nothing",
                         "the distance of the solvent front in mm, in the first row of the plate");
    }
    return stated ? front_of_plate[plate] = *stated : front_of_plate[plate];
}

/// The same, of a table with distances.
std::vector<double> read_distances(const TableReader &table, std::vector<double> &fronts_mm,
                                   std::map<std::string, double> &front_of_plate) {
    const std::vector<double> distances =
        table.readings("distance_mm", "the distance of the spot in mm");
    if (distances.empty()) {
        return {};
    }
    const double front = read_front(table, front_of_plate);
    if (front < kMinFront_mm || front > kMaxFront_mm) {
        throw InputError(table.where("front_mm"), exact_text(front),
                         "the distance of the front, 10 to 2000 mm (not cm)");
    }
    std::vector<double> rfs;
    for (const double distance : distances) {
        if (distance < 0.0 || distance > front) {
            throw InputError(table.where("distance_mm"), exact_text(distance) + " mm",
                             "from 0 mm to the distance of the front, " + exact_text(front) +
                                 " mm");
        }
        fronts_mm.push_back(front);
        rfs.push_back(quantities::retardation_factor(distance, front));
    }
    return rfs;
}

/// Gathers the rows of spots into lanes.
class LaneGatherer {
public:
    /// The spots of one fraction in a row, in any number.
    void add(const TableReader &table, int number, const std::vector<double> &rfs,
             std::optional<double> intensity, FractionTable &result) {
        if (rfs.empty()) {
            add(table, number, std::nullopt, intensity, result);
        }
        for (const double rf : rfs) {
            add(table, number, rf, intensity, result);
        }
    }

private:
    void add(const TableReader &table, int number, std::optional<double> rf,
             std::optional<double> intensity, FractionTable &result) {
        const std::string plate(table.text("plate"));
        const std::string name(table.text("lane"));
        const auto [entry, is_new] =
            lane_of_.try_emplace({number, plate, name}, result.lanes.size());
        if (is_new) {
            result.lanes.push_back({number, plate, name, {}});
        }
        fractions::Lane &lane = result.lanes[entry->second];
        const char *column = table.has("Rf") ? "Rf" : "distance_mm";
        if (!is_new && (!rf || lane.spots.empty())) {
            throw InputError(table.where(column),
                             fmt::format("fraction {} both with and without a spot", number),
                             "one row without a value for a fraction in which nothing was seen, or "
                             "one row a spot");
        }
        if (!rf) {
            check_nothing_seen(table, intensity);
            return;
        }
        for (const fractions::Spot &spot : lane.spots) {
            if (spot.rf == *rf) {
                throw InputError(table.where(column),
                                 fmt::format("R_F {} of fraction {} again", shown_rf(*rf), number),
                                 "each spot of a lane once");
            }
        }
        if (lane.spots.size() == kMostSpots) {
            throw InputError(table.where(column),
                             fmt::format("more than {} spots of fraction {}", kMostSpots, number),
                             "spots that a plate can show");
        }
        lane.spots.push_back({*rf, intensity});
    }

    static std::string shown_rf(double rf) { return fmt::format("{:.4g}", rf); }

    static void check_nothing_seen(const TableReader &table, std::optional<double> intensity) {
        if (intensity && *intensity > 0.0) {
            throw InputError(table.where("intensity"), exact_text(*intensity),
                             "nothing where no spot was seen, or the R_F of the spot");
        }
    }

    std::map<std::tuple<int, std::string, std::string>, std::size_t> lane_of_;
};

/// A spot of a standard, of which the lane holds no fraction.
void add_standard(const TableReader &table, const std::vector<double> &rfs, FractionTable &result) {
    if (!table.text("fraction").empty()) {
        throw InputError(table.where("fraction"), in_quotes(table.text("fraction")),
                         "nothing in the row of a standard, or the role sample");
    }
    if (rfs.size() != 1) {
        throw InputError(table.where(table.has("Rf") ? "Rf" : "distance_mm"),
                         rfs.empty() ? "nothing" : counted(rfs.size(), "spot"),
                         "where the standard ran");
    }
    result.standards.push_back(
        {std::string(table.text("plate")), std::string(table.text("label")), rfs.front()});
}

void add_signal(const TableReader &table, int number, FractionTable &result) {
    const double signal = table.number("signal", "the signal of the detector");
    check_of_instrument(table, "signal", signal);
    if (!result.signals.emplace(number, signal).second) {
        throw InputError(table.where("fraction"), fmt::format("fraction {} again", number),
                         "each fraction of a trace once");
    }
}

void add_point(const TableReader &table, FractionTable &result) {
    const double volume = table.number("volume_mL", "the volume eluted in mL");
    if (volume < 0.0 || volume > kLargestAmount) {
        throw InputError(table.where("volume_mL"), exact_text(volume), "a volume from 0 mL");
    }
    const double signal = table.number("signal", "the signal of the detector");
    check_of_instrument(table, "signal", signal);
    result.points.push_back({volume, signal});
}

void add_amounts(const TableReader &table, int number, FractionTable &result) {
    FractionAmount &amount = result.amounts[number];
    keep_amount(table, "mass_mg", read_amount(table, "mass_mg", "the mass of the fraction in mg"),
                number, amount.mass_mg);
    const auto volume = read_amount(table, "volume_mL", "the volume of the fraction in mL");
    if (volume && *volume <= 0.0) {
        throw InputError(table.where("volume_mL"), exact_text(*volume), "a volume above 0 mL");
    }
    keep_amount(table, "volume_mL", volume, number, amount.volume_ml);
}

} // namespace

std::optional<int> fraction_number(std::string_view text) {
    const auto number = number_from_text(text);
    const bool is_one =
        number && *number >= 1.0 && *number <= kMostFractions && *number == std::floor(*number);
    return is_one ? std::optional(static_cast<int>(*number)) : std::nullopt;
}

namespace {

/// Spots of one fraction may stand in several columns.
std::vector<TableColumn> fraction_columns() {
    std::vector<TableColumn> columns;
    for (const char *name : {"fraction", "Rf", "distance_mm", "front_mm", "plate", "lane", "spot",
                             "role", "label", "intensity", "mass_mg", "volume_mL", "signal"}) {
        columns.push_back({name});
    }
    columns[1].may_repeat = true;
    columns[2].may_repeat = true;
    return columns;
}

} // namespace

FractionTable read_fractions(std::istream &in, const std::string &file,
                             const std::vector<ColumnAlias> &aliases) {
    TableReader table(in, file, fraction_columns(), aliases,
                      {{"fraction", "Rf"},
                       {"fraction", "distance_mm", "front_mm"},
                       {"fraction", "signal"},
                       {"volume_mL", "signal"}});
    const Kind kind = kind_of(table);
    FractionTable result;
    LaneGatherer lanes;
    SpotIntensities intensities;
    std::map<std::string, double> fronts; ///< of plates, as stated so far
    bool has_rows = false;
    const auto read_spots = [&] {
        return kind == Kind::rf ? read_rfs(table) : read_distances(table, result.fronts_mm, fronts);
    };
    for_each_row(table, [&] {
        has_rows = true;
        if (kind == Kind::signal_by_volume) {
            add_point(table, result);
            return;
        }
        if (read_role(table, RowRole::sample) == RowRole::standard) {
            if (kind == Kind::signal_by_fraction) {
                throw InputError(table.where("role"), in_quotes(table.text("role")),
                                 "no standards in a trace");
            }
            add_standard(table, read_spots(), result);
            return;
        }
        const Range range = read_fractions_of_row(table);
        check_is_one(table, range);
        add_amounts(table, range.first, result);
        if (kind == Kind::signal_by_fraction) {
            add_signal(table, range.first, result);
            return;
        }
        const std::vector<double> rfs = read_spots();
        const auto intensity = intensities.read(table);
        if (rfs.size() > 1 && intensity && !intensities.is_word()) {
            throw InputError(table.where("intensity"), exact_text(*intensity),
                             "a row for each spot that has an intensity");
        }
        for (int number = range.first; number <= range.last; ++number) {
            lanes.add(table, number, rfs, intensity, result);
        }
    });
    result.notes = table.notes();
    if (!table.rough_lines().empty()) {
        result.notes.push_back(fmt::format("what is stated as \"ca.\" in column {} is read as the "
                                           "number behind it ({})",
                                           kind == Kind::rf ? "Rf" : "distance_mm",
                                           line_list(table.rough_lines())));
    }
    if (has_rows && kind != Kind::signal_by_volume && kind != Kind::signal_by_fraction &&
        result.lanes.empty()) {
        throw InputError({file, 0, "role"}, "standards only", "a row of a fraction");
    }
    if (!has_rows) {
        throw InputError({file, table.line(), ""}, "a header without rows",
                         "one row a spot, or one a reading");
    }
    return result;
}

} // namespace cospot
