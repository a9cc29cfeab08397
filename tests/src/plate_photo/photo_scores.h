#pragma once

#include "rendered_plate.h"

#include "plate_photo/found_plate.h"
#include "plate_photo/plate_geometry.h"

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

/// How what was found on a drawn plate compares with the truth. What counts as what stands beside
/// each function; the trial prints it too.
namespace cospot::rendering {

/// From this contrast on, spots are asked for.
inline constexpr double kAskedContrast = 0.05;
/// And from this ratio of signal to noise on (Rose 1948, J. Opt. Soc. Am. 38, 196; his number is
/// from memory).
inline constexpr double kAskedVisibility = 5.0;

struct Share {
    std::size_t part = 0, all = 0;
    void count(bool one) {
        ++all;
        part += one ? 1 : 0;
    }
};

struct SpotTally {
    Share asked;                       ///< found of those that are asked for
    std::map<std::string, Share> kind; ///< of these, by what is special about them
    Share drowned;                     ///< found of those with the contrast, not the visibility
    Share faint;                       ///< found of those below kAskedContrast
    Share falsely;                     ///< false of all found
    Share covered;                     ///< |dR_F| at most 1.96 of its standard uncertainty
    std::vector<double> rf_errors;     ///< |dR_F| of found ones that are asked for
    std::vector<double> uncertainties; ///< what was stated, in the same order
    std::size_t without_rf = 0;        ///< found, but there was no start or no front
};

struct LaneTally {
    Share lanes;  ///< right ones of those asked for and of those that are none
    Share plates; ///< on which all lanes are right
};

struct LineTally {
    Share seen;       ///< of visible ones: some line was seen
    Share right;      ///< of visible ones
    Share false_ones; ///< of invisible ones: a line was seen all the same
};

/// R_F of a found spot between start and front at its own x, with the standard uncertainty that
/// follows from those of the three places, taken as independent, to first order (JCGM 100:2008,
/// 5.1.2). None without a start or a front.
struct Reading {
    double rf = 0.0, uncertainty = 0.0;
};
[[nodiscard]] std::optional<Reading> reading_of(const plate_photo::FoundPlate &found,
                                                const plate_photo::FoundSpot &spot,
                                                double plate_width_mm);

/// Found spots and true ones, each at most once, nearest first. They can belong together where the
/// found place lies within the true spot's half height (at least 1 mm) in both directions. Asked
/// for are those with a contrast of 5 % that stand out of the noise (kAskedVisibility) and have a
/// maximum of their own along the lane. A found one is false where no true one is left within twice
/// that distance and no streak lies there.
void count_spots(const plate_photo::FoundPlate &found, const Chromatogram &truth, SpotTally &tally);

/// Asked for are lanes with a spot that is asked for. A lane is right where a found middle lies
/// within a quarter of the least distance of two lanes (1 to 3 mm); a found one that lies so near
/// to no true lane counts as one that is none.
void count_lanes(const plate_photo::FoundPlate &found, const Chromatogram &truth, LaneTally &tally);

/// Right is a line whose distance from the true one, mean of both edges and the middle, is at most
/// 0.5 mm, or 0.7 % of the plate's height where that is more.
void count_line(const std::optional<plate_photo::PlateLine> &found, const TrueLine &truth,
                double plate_height_mm, LineTally &tally);

/// Corners are wrong where one is farther from the truth than 1.5 % of the plate's height.
enum class CornerVerdict { right, wrong, asked_for };
struct CornerScore {
    CornerVerdict verdict = CornerVerdict::asked_for;
    double mean_px = 0.0, mean_mm = 0.0; ///< mean distance of the four; at the scale of its middle
};
[[nodiscard]] CornerScore score_corners(const std::optional<plate_photo::Corners> &found,
                                        const RenderedPlate &plate);

} // namespace cospot::rendering
