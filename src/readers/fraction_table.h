#pragma once

#include "fractions/fraction.h"
#include "fractions/trace.h"
#include "shared/table.h"

#include <iosfwd>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// What the user weighed or measured of a fraction.
struct FractionAmount {
    std::optional<double> mass_mg;
    std::optional<double> volume_ml;
};

/// What a table of fractions says. It holds lanes of plates, or signals of a detector: by fraction
/// (in `signals`) or by eluted volume (in `points`).
struct FractionTable {
    std::vector<fractions::Lane> lanes;
    std::vector<fractions::StandardSpot> standards; ///< that ran beside them
    std::vector<double> fronts_mm;                  ///< of the spots that were given as distances
    std::map<int, double> signals;
    std::vector<fractions::TracePoint> points;
    std::map<int, FractionAmount> amounts; ///< by fraction
    std::vector<std::string> notes;        ///< on how the table was read

    [[nodiscard]] bool is_trace() const { return !signals.empty() || !points.empty(); }
};

/// Larger numbers are no fractions of a column.
inline constexpr int kMostFractions = 10000;

/// The number of a fraction, a whole one from 1 to kMostFractions; empty for other texts.
[[nodiscard]] std::optional<int> fraction_number(std::string_view text);

/// Reads a table of fractions, told apart by its header:
///   spots: fraction and Rf, or fraction, distance_mm and front_mm; optional plate, lane, spot,
///   intensity. A fraction without a value is one in which no spot was seen. "5-7" stands for three
///   fractions with the same spots; several columns may hold the spots of a row, and a value may be
///   rough ("ca. 0.36"). A row whose role is
///   "standard" is a spot of a standard on a lane of its own, by its label; it has no fraction.
///   trace: fraction and signal, or volume_mL and signal.
/// A table with fractions may hold mass_mg and volume_mL of each. Throws InputError for a header
/// without the columns of any kind, a table without rows, a fraction that is no whole number from
/// 1, an R_F outside 0..1, a spot beyond the front, a negative intensity, mass or volume, the same
/// spot twice, and masses or volumes of a fraction that contradict each other.
[[nodiscard]] FractionTable read_fractions(std::istream &in, const std::string &file,
                                           const std::vector<ColumnAlias> &aliases = {});

} // namespace cospot
