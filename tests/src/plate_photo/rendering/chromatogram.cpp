#include "chromatogram.h"

#include <algorithm>
#include <cmath>

namespace cospot::rendering {
namespace {

using plate_photo::Light;
using plate_photo::PlateLine;
using plate_photo::PlateSize;
using Channels = std::array<double, 3>;

/// A compound on the plate; it runs to about the same height in each lane that has it.
struct Compound {
    double rf = 0.0;
    double contrast = 0.0;
    Channels absorbs{};
    Channels glows{};
    SpotClass kind = SpotClass::plain;
    double bend = 0.0; ///< of a crescent, at one standard deviation across, in these
};

double times_hardness(Difficulty difficulty, double easy, double usual, double hard) {
    return difficulty == Difficulty::easy ? easy : difficulty == Difficulty::usual ? usual : hard;
}

PlateSize drawn_size(Draws &draws) {
    return draws.one_of<PlateSize>({{20, 50},
                                    {25, 75},
                                    {50, 100},
                                    {50, 100},
                                    {100, 100},
                                    {200, 200},
                                    {25, 50},
                                    {40, 80},
                                    {50, 50},
                                    {50, 75},
                                    {33, 66},
                                    {100, 200},
                                    {100, 50},
                                    {30, 60}});
}

TrueLine drawn_start(const PlateSize &size, Light light, Draws &draws) {
    TrueLine start;
    const double y = size.height_mm <= 60.0 ? draws.uniform(6.0, 10.0) : draws.uniform(8.0, 15.0);
    const double slant = std::clamp(0.004 * draws.normal(), -0.01, 0.01) * size.width_mm;
    start.line = {y - slant, y, y + slant, 0.0, false};
    if (light == Light::white && draws.chance(0.8)) {
        start.pencil = draws.evenly_in_logarithm(0.06, 0.5);
        start.visible = true;
    } else if (light == Light::uv254 && draws.chance(0.25)) {
        start.pencil = draws.uniform(0.03, 0.1); // a hint that nobody is asked to see
    }
    return start;
}

void draw_how_front_shows(TrueLine &front, Light light, Draws &draws) {
    if (light == Light::white) {
        if (draws.chance(0.5)) {
            front.pencil = draws.evenly_in_logarithm(0.06, 0.5);
        } else if (draws.chance(0.4)) {
            front.wet_edge = draws.uniform(0.03, 0.15);
        }
    } else if (draws.chance(0.4)) {
        front.residue = draws.uniform(0.05, 0.4);
    } else if (light == Light::uv254 && draws.chance(0.3)) {
        front.wet_edge = draws.uniform(0.03, 0.12);
    }
    front.visible = front.pencil + front.wet_edge + front.residue > 0.0;
}

/// Straight, slanting or smiling. A front that nobody can see is straight: it was noted as one
/// height.
TrueLine drawn_front(const PlateSize &size, Light light, Difficulty difficulty, Draws &draws) {
    TrueLine front;
    draw_how_front_shows(front, light, draws);
    const double y = size.height_mm - draws.uniform(4.0, 4.0 + 0.2 * size.height_mm);
    double slant = 0.002 * draws.normal() * size.width_mm;
    double smile = 0.0;
    if (front.visible && draws.chance(times_hardness(difficulty, 0.1, 0.3, 0.5))) {
        slant = draws.uniform(-0.025, 0.025) * size.width_mm;
    }
    if (front.visible && draws.chance(times_hardness(difficulty, 0.1, 0.25, 0.4))) {
        smile = draws.uniform(-0.4, 1.0) * std::min(0.03 * size.width_mm, 3.0);
    }
    const double top = size.height_mm - 1.5;
    front.line = {std::min(top, y - slant + smile), y, std::min(top, y + slant + smile), 0.0,
                  false};
    return front;
}

std::vector<double> drawn_lanes(const PlateSize &size, Draws &draws) {
    const double margin = std::max(4.0, draws.uniform(0.08, 0.16) * size.width_mm);
    const double room = size.width_mm - 2.0 * margin;
    const auto most = static_cast<std::size_t>(std::clamp(1.0 + room / 5.0, 1.0, 12.0));
    const std::size_t count = 1 + draws.index(most);
    std::vector<double> lanes;
    if (count == 1) {
        return {size.width_mm * draws.uniform(0.35, 0.65)};
    }
    const double spacing = room / static_cast<double>(count - 1);
    for (std::size_t k = 0; k < count; ++k) {
        const double jitter = std::clamp(0.05 * draws.normal(), -0.1, 0.1) * std::min(spacing, 8.0);
        lanes.push_back(margin + static_cast<double>(k) * spacing + jitter);
    }
    return lanes;
}

Channels drawn_colour(Light light, bool stained, Draws &draws) {
    if (light == Light::uv254) {
        return {0.9, 1.0, 0.9};
    }
    if (light == Light::uv366) {
        return draws.one_of<Channels>({{0.15, 0.45, 1.0},
                                       {0.3, 0.9, 1.0},
                                       {0.8, 1.0, 0.25},
                                       {1.0, 0.5, 0.1},
                                       {1.0, 0.15, 0.2},
                                       {0.8, 0.9, 1.0}});
    }
    if (stained && draws.chance(0.06)) {
        return {-0.6, -0.4, 1.0}; // the stain has been used up: yellow, paler than the layer
    }
    return draws.one_of<Channels>({{0.5, 0.75, 1.0},    // brown
                                   {0.6, 1.0, 0.5},     // violet
                                   {0.05, 0.2, 1.0},    // yellow
                                   {1.0, 0.6, 0.2},     // blue
                                   {0.1, 0.55, 1.0},    // orange
                                   {1.0, 0.35, 0.8},    // green
                                   {0.95, 0.97, 1.0}}); // grey
}

double drawn_contrast(Draws &draws) {
    const double kind = draws.uniform(0.0, 1.0);
    if (kind < 0.13) {
        return draws.evenly_in_logarithm(0.01, 0.05);
    }
    return kind < 0.8 ? draws.evenly_in_logarithm(0.06, 0.7) : draws.uniform(0.6, 0.97);
}

std::vector<Compound> drawn_compounds(Light light, bool stained, Draws &draws) {
    std::vector<Compound> compounds;
    const std::size_t count = 1 + draws.index(6);
    for (std::size_t k = 0; k < count; ++k) {
        Compound compound;
        compound.rf = draws.uniform(0.04, 0.93);
        const double kind = draws.uniform(0.0, 1.0);
        if (kind < 0.06) {
            compound.rf = 0.0;
            compound.kind = SpotClass::at_start;
        } else if (kind < 0.12) {
            compound.rf = draws.uniform(0.96, 1.0);
            compound.kind = SpotClass::at_front;
        } else if (kind < 0.32) {
            compound.kind = SpotClass::tailing;
        } else if (kind < 0.38) {
            compound.kind = SpotClass::crescent;
            compound.bend = draws.uniform(0.1, 0.25) * (draws.chance(0.7) ? 1.0 : -1.0);
        } else if (kind < 0.46) {
            compound.kind = SpotClass::flat_topped;
        }
        compound.contrast = drawn_contrast(draws);
        (light == Light::uv366 ? compound.glows : compound.absorbs) =
            drawn_colour(light, stained, draws);
        compounds.push_back(compound);
    }
    return compounds;
}

SpotShape drawn_shape(const Compound &compound, double lane_room_mm, double run_mm, Draws &draws) {
    SpotShape shape;
    const double most = std::min({3.0, lane_room_mm / 4.5, run_mm / 16.0});
    const double least = std::min(0.45, 0.8 * most);
    shape.across_mm = draws.evenly_in_logarithm(least, most);
    shape.along_mm = std::clamp(shape.across_mm * draws.uniform(0.6, 1.15), 0.4, most);
    switch (compound.kind) {
    case SpotClass::tailing:
        shape.tail = draws.chance(0.5) ? Tail::smeared : Tail::comet;
        shape.tail_mm = shape.along_mm * draws.uniform(1.0, 3.5);
        break;
    case SpotClass::crescent:
        shape.across_mm = std::max(shape.across_mm, 0.8 * most);
        shape.along_mm = 0.45 * shape.across_mm;
        shape.bend = compound.bend / shape.across_mm;
        break;
    case SpotClass::flat_topped:
        shape.flatness = draws.uniform(2.5, 4.5);
        break;
    default:
        break;
    }
    settle(shape);
    return shape;
}

/// Fills in what follows from the shape and the lines.
void place(TrueSpot &spot, const Chromatogram &plate) {
    const double start = height_mm(plate.start.line, spot.shape.x_mm, plate.size.width_mm);
    const double front = height_mm(plate.front.line, spot.shape.x_mm, plate.size.width_mm);
    spot.shape.y_mm = start + spot.rf * (front - start);
    const Extent along = extent(spot.shape, 0.1);
    spot.low_mm = along.low_mm;
    spot.high_mm = along.high_mm;
    spot.width_mm = 2.0 * half_width_mm(spot.shape, 0.1);
    spot.centre_mm = centre_mm(spot.shape);
}

double density(const TrueSpot &spot) {
    return -std::log10(1.0 - spot.contrast);
}

/// A spot just above or below another, so near that they touch.
TrueSpot partner_of(const TrueSpot &spot, const Chromatogram &plate, Draws &draws) {
    TrueSpot other = spot;
    other.kind = SpotClass::plain;
    other.shape.tail = Tail::none;
    other.shape.flatness = 2.0;
    other.shape.bend = 0.0;
    other.contrast = std::clamp(spot.contrast * draws.evenly_in_logarithm(0.4, 2.5), 0.05, 0.95);
    const double start = height_mm(plate.start.line, spot.shape.x_mm, plate.size.width_mm);
    const double front = height_mm(plate.front.line, spot.shape.x_mm, plate.size.width_mm);
    const double apart = draws.uniform(2.0, 3.8) * spot.shape.along_mm;
    other.rf += (spot.rf < 0.5 ? 1.0 : -1.0) * apart / (front - start);
    place(other, plate);
    return other;
}

void develop_lane(std::size_t lane, const std::vector<Compound> &compounds, double room_mm,
                  Chromatogram &plate, Draws &draws) {
    const double run = plate.front.line.middle_mm - plate.start.line.middle_mm;
    for (const Compound &compound : compounds) {
        if (!draws.chance(0.65)) {
            continue;
        }
        TrueSpot spot;
        spot.lane = lane;
        spot.kind = compound.kind;
        spot.rf =
            compound.rf + (compound.kind == SpotClass::at_start ? 0.0 : 0.004 * draws.normal());
        spot.contrast = std::clamp(compound.contrast * draws.uniform(0.5, 1.3), 0.01, 0.97);
        spot.absorbs = compound.absorbs;
        spot.glows = compound.glows;
        spot.shape = drawn_shape(compound, room_mm, run, draws);
        spot.shape.x_mm = plate.lanes_mm[lane] + std::clamp(0.15 * draws.normal(), -0.4, 0.4);
        place(spot, plate);
        plate.spots.push_back(spot);
        if (spot.kind == SpotClass::plain && draws.chance(0.12)) {
            plate.spots.push_back(partner_of(spot, plate, draws));
        }
    }
    if (draws.chance(0.04)) {
        const double low = plate.start.line.middle_mm;
        plate.streaks.push_back({plate.lanes_mm[lane], low, low + draws.uniform(0.1, 0.5) * run,
                                 std::min(2.5, 0.3 * room_mm), draws.uniform(0.02, 0.12)});
    }
}

/// Change of light along the vertical line through a spot, in what it changes most.
double change_at(const std::vector<TrueSpot> &spots, const TrueSpot &along, double y) {
    double sum = 0.0;
    for (const TrueSpot &spot : spots) {
        if (spot.lane == along.lane) {
            sum += density(spot) * amount(spot.shape, along.shape.x_mm, y);
        }
    }
    return 1.0 - std::pow(10.0, -sum);
}

/// Whether the change of light has a maximum within the spot's upper half height that rises 4 % of
/// its own change above the valleys on both sides.
bool has_maximum(const std::vector<TrueSpot> &spots, const TrueSpot &spot) {
    const Extent half = extent(spot.shape, 0.5);
    double top = 0.0;
    double at = spot.shape.y_mm;
    for (double y = half.low_mm; y <= half.high_mm; y += 0.02) {
        const double value = change_at(spots, spot, y);
        if (value > top) {
            top = value;
            at = y;
        }
    }
    const auto falls = [&](double step) {
        double lowest = top;
        for (double y = at + step; y > spot.low_mm - 8.0 && y < spot.high_mm + 8.0; y += step) {
            const double value = change_at(spots, spot, y);
            if (value > top) {
                break;
            }
            lowest = std::min(lowest, value);
        }
        return top - lowest >= 0.04 * spot.contrast;
    };
    return falls(0.05) && falls(-0.05);
}

/// Overlapping: where one spot is densest, another of its lane has 5 % of its density, or the other
/// way round.
void judge_overlaps(std::vector<TrueSpot> &spots) {
    for (TrueSpot &spot : spots) {
        for (const TrueSpot &other : spots) {
            if (&spot == &other || spot.lane != other.lane) {
                continue;
            }
            const double here =
                density(other) * amount(other.shape, spot.shape.x_mm, spot.shape.y_mm);
            const double there =
                density(spot) * amount(spot.shape, other.shape.x_mm, other.shape.y_mm);
            spot.overlapping |= here >= 0.05 * density(spot) || there >= 0.05 * density(other);
        }
        spot.separable = !spot.overlapping || has_maximum(spots, spot);
    }
}

} // namespace

double height_mm(const PlateLine &line, double x_mm, double width_mm) {
    const double t = 2.0 * x_mm / width_mm - 1.0; // -1 at the left edge, 1 at the right
    const double slope = 0.5 * (line.right_mm - line.left_mm);
    const double bow = 0.5 * (line.right_mm + line.left_mm) - line.middle_mm;
    return line.middle_mm + slope * t + bow * t * t;
}

Chromatogram developed(Light light, Difficulty difficulty, Draws draws) {
    Chromatogram plate;
    plate.light = light;
    plate.size = drawn_size(draws);
    plate.stained = light == Light::white && draws.chance(0.6);
    plate.start = drawn_start(plate.size, light, draws);
    plate.front = drawn_front(plate.size, light, difficulty, draws);
    plate.lanes_mm = drawn_lanes(plate.size, draws);
    double room =
        2.0 * std::min(plate.lanes_mm.front(), plate.size.width_mm - plate.lanes_mm.back());
    for (std::size_t k = 1; k < plate.lanes_mm.size(); ++k) {
        room = std::min(room, plate.lanes_mm[k] - plate.lanes_mm[k - 1]);
    }
    const std::vector<Compound> compounds = drawn_compounds(light, plate.stained, draws);
    for (std::size_t lane = 0; lane < plate.lanes_mm.size(); ++lane) {
        develop_lane(lane, compounds, room, plate, draws);
    }
    judge_overlaps(plate.spots);
    return plate;
}

} // namespace cospot::rendering
