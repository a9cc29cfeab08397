#pragma once

#include <string>
#include <vector>

namespace cospot {

enum class TubeContent {
    none,
    possible, ///< may hold a compound, though none is expected
    one,
    several
};

/// A tube of a rack: a fraction with what it is expected to hold.
struct DrawnTube {
    int number = 1;
    std::string letters{}; ///< of its compounds, "B" or "BC"
    std::string words{};   ///< the same in words
    TubeContent content = TubeContent::none;
    bool holds_target = false;
    std::string key{}; ///< of a compound's row in the table; may be empty
};

/// The rack that a column fills.
struct DrawnRack {
    double tube_ml = 0.0;
    double discarded_ml = 0.0;    ///< before tube 1
    std::vector<DrawnTube> tubes; ///< from tube 1, none left out; never empty
};

/// The tubes in rows of twenty, each with its number and letters: filled for the target, tinted for
/// another compound, hatched for several, with a broken outline where one is possible only. Rows in
/// which nothing is expected are left out, and said. Readable without colour.
[[nodiscard]] std::string rack_picture(const DrawnRack &rack, const std::string &title);

/// The same in rows of ten for a terminal, 56 columns wide.
[[nodiscard]] std::string rack_text(const DrawnRack &rack);

} // namespace cospot
