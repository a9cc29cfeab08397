#pragma once

#include "shared/table.h"

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// One peak of a chromatogram as the integrator lists it.
struct Peak {
    std::string run;  ///< its name; empty where the file holds one run without a name
    std::string date; ///< of the run, if stated in any of its rows
    std::string name;
    std::string compound; ///< of a standard: the compound that it is known to be; else empty
    std::string named{};  ///< what the column compound calls it, of a standard or of the sample
    std::string smiles{}; ///< of a standard, if its row states a structure
    std::string cas{};    ///< registry number of a standard, if stated
    std::string called_unretained{}; ///< that it calls it instead: "solvent front"; no compound
    bool is_stated_standard = false; ///< its role says so, not only the column compound
    double retention_time_min = 0.0;
    std::optional<double> uncertainty_min; ///< standard uncertainty of the time, if stated
    double rounding_min = 0.0;             ///< standard uncertainty of it as the file rounds times
    std::optional<double> area;            ///< any unit
    bool is_area_below = false;            ///< stated as too little to be measured; no area then
    std::optional<double> ppm;             ///< mg in a kg of the sample
    bool is_ppm_below = false;             ///< stated as too little to be measured; no ppm then
    std::optional<double> ppm_below;       ///< that it is stated to be below, if a number is
    bool is_ppm_undetected = false; ///< stated as below the detection limit, without a number
    std::optional<double> start_min;
    std::optional<double> end_min;
    std::optional<double> height;         ///< any unit
    std::optional<double> width_half_min; ///< at half height
    std::optional<double> symmetry;       ///< symmetry factor A_s
    std::size_t line = 0;                 ///< in the file
};

/// Reads the peaks of a run or several (column tR, optional
/// run,date,peak,uncertainty,compound,smiles,cas,role,area,ppm,start,end,height,width_half,symmetry;
/// times in min). Without a column peak, the peaks of a run are numbered. Times count as rounded to
/// the last digit that any of them has, whole minutes excepted. A peak with a compound is a
/// standard unless its role says "sample"; "unknown" and "solvent front" and the like are no
/// compound. Amounts may be stated as below a limit (`read_measured_amount`). Throws InputError for
/// times that are not positive, negative areas, heights or widths, a peak outside its own start and
/// end, a peak named twice, and where every run is left out as faulty. What the user should know of
/// how the file was read goes to `notes`.
[[nodiscard]] std::vector<Peak> read_chromatogram(std::istream &in, const std::string &file,
                                                  const TableForm &form = {},
                                                  std::vector<std::string> *notes = nullptr);

/// The peaks of each run, in the order of their first peaks.
[[nodiscard]] std::vector<std::vector<Peak>> by_run(std::vector<Peak> peaks);

} // namespace cospot
