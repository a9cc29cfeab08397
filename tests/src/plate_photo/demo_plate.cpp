// Draws the photo of the demo: an invented plate at 254 nm with the R_F of
// tools/demo-data/plate.csv. demo_plate FILE.jpg
#include "images/jpeg_writing.h"
#include "rendered_plate.h"

#include <fstream>
#include <iostream>

namespace cospot::rendering {
namespace {

struct LaneSpot {
    std::size_t lane; ///< from 0
    double rf;
    double contrast;
};

TrueSpot spot_on(const Chromatogram &plate, const LaneSpot &asked) {
    TrueSpot spot;
    spot.lane = asked.lane;
    spot.rf = asked.rf;
    spot.contrast = asked.contrast;
    spot.absorbs = {1.0, 1.0, 1.0};
    spot.shape.x_mm = plate.lanes_mm[asked.lane];
    const double start = plate.start.line.middle_mm;
    spot.shape.y_mm = start + asked.rf * (plate.front.line.middle_mm - start);
    spot.shape.across_mm = 1.5;
    spot.shape.along_mm = 1.2;
    return spot;
}

Chromatogram demo_plate() {
    Chromatogram plate;
    plate.size = {50.0, 100.0};
    plate.light = plate_photo::Light::uv254;
    plate.start.line = {12.0, 12.0, 12.0};
    plate.front.line = {84.0, 84.0, 84.0};
    plate.lanes_mm = {10.0, 20.0, 30.0, 40.0};
    // Benzyl alcohol, flask 1, acetophenone, flask 2.
    for (const LaneSpot &spot :
         {LaneSpot{0, 0.192, 0.55}, LaneSpot{1, 0.396, 0.6}, LaneSpot{1, 0.689, 0.4},
          LaneSpot{2, 0.438, 0.6}, LaneSpot{3, 0.319, 0.35}, LaneSpot{3, 0.473, 0.65}}) {
        plate.spots.push_back(spot_on(plate, spot));
    }
    return plate;
}

} // namespace
} // namespace cospot::rendering

int main(int argc, char **argv) {
    using namespace cospot;
    if (argc != 2) {
        std::cerr << "usage: demo_plate FILE.jpg\n";
        return 2;
    }
    const rendering::RenderedPlate plate = rendering::rendered(
        {.seed = 4, .difficulty = rendering::Difficulty::usual, .megapixels = 0.7, .light = {}},
        rendering::demo_plate());
    std::ofstream(argv[1], std::ios::binary) << images::jpeg_of(plate.image, 80);
    return 0;
}
