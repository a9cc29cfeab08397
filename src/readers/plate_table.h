#pragma once

#include "quantities/uncertain.h"
#include "readers/further_evidence_columns.h"
#include "readers/role_column.h"
#include "shared/table.h"

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

inline constexpr double kMinFront_mm = 10.0;   ///< below, the distances are in cm
inline constexpr double kMaxFront_mm = 2000.0; ///< of a long paper chromatogram

/// Standard uncertainty of an R_F that is noted to two digits (common practice, no source).
inline constexpr double kNotedRfError = 0.01;
/// By how much the uncertainty of a reading grows that is stated as "ca." something (common
/// practice, no source).
inline constexpr double kRoughFactor = 2.0;
/// The front on which the spots of a plate that is noted in R_F are drawn and compared (common
/// practice, no source).
inline constexpr double kFrontOfNotedRf_mm = 70.0;

/// One spot of a developed plate as it was read with a ruler.
struct PlateSpot {
    std::string plate;  ///< its name; empty where the file holds one plate without a name
    std::string date;   ///< of the plate, if stated
    std::string system; ///< that the plate was run on, if stated
    std::string lane;
    std::string label; ///< sample, or name of the standard's compound; of a co-spot the sample
    std::string spot;
    double distance_mm = 0.0;          ///< from the start to the middle of the spot
    std::optional<double> front_mm;    ///< from the start to the solvent front; of the whole plate
                                       ///< where it is stated once
    std::optional<double> noted_rf;    ///< R_F where that was noted: no distance was measured
    std::optional<double> uncertainty; ///< standard, of R_F; none: as a ruler reads, or as noted
    bool is_rough = false; ///< stated as "ca." something: without an uncertainty it has twice that
    RowRole role = RowRole::sample;
    std::string smiles; ///< of a standard, if its row states a structure
    std::string cas;    ///< registry number of a standard, if stated
    std::string over;   ///< of a co-spot: name of the standard's compound, applied over the sample
    std::optional<double> area; ///< by densitometry, any unit
    FurtherEvidence further{};  ///< lamp and stains
    std::size_t line = 0;       ///< in the file
};

/// That readings in these lines of a column are stated as "ca." something.
[[nodiscard]] std::string rough_words(std::string_view column, const std::set<std::size_t> &lines);

/// The columns of a plate's table, and the sets of which one tells the places of its spots.
[[nodiscard]] std::vector<TableColumn> plate_columns();
[[nodiscard]] std::vector<std::vector<std::string>> plate_places();

/// Reads a plate or several (columns lane and distance_mm, Rf or hRf, optional
/// plate,date,system,label,spot,front_mm,uncertainty,role,area,smiles,cas, and
/// uv254,stain,stained; role is
/// "sample", "standard" or "cospot", an empty or absent one means "sample"). Without a column spot,
/// the spots of a lane are numbered. A front, date or system that is given once holds for its
/// plate; an empty plate, lane or label means the one above (`CellsAbove`). A row without a place
/// is a lane in which no spot was seen, and left out. Places may be rough ("ca. 20"). The label of
/// a co-spot is "SAMPLE + STANDARD". Throws InputError for what a ruler cannot have read: a spot
/// beyond the front, a negative distance, a front at 0, a spot named twice, a second spot of a
/// standard in its lane. What the user should know of how the file was read goes to `notes`.
[[nodiscard]] std::vector<PlateSpot> read_plate(std::istream &in, const std::string &file,
                                                const TableForm &form = {},
                                                std::vector<std::string> *notes = nullptr);

/// The spots of each plate, in the order of their first spots.
[[nodiscard]] std::vector<std::vector<PlateSpot>> by_plate(std::vector<PlateSpot> spots);

/// R_F of a spot whose front is stated, with its uncertainty: the stated one, else that of a noted
/// R_F or of two readings with a ruler (`reading_error_mm`, standard, of each).
[[nodiscard]] quantities::Uncertain rf_of(const PlateSpot &spot, double reading_error_mm);

/// The front of a spot; InputError where none is stated on its plate.
[[nodiscard]] double stated_front_mm(const PlateSpot &spot, const std::string &file);

} // namespace cospot
