#include "handwriting.h"

#include <map>

namespace cospot::rendering {
namespace {

/// Points on a grid of 4 x 6: pairs of column and row (row 0 at the foot); a blank lifts the
/// pencil.
const std::map<char, const char *> &letter_paths() {
    static const std::map<char, const char *> paths{
        {'0', "10 01 05 16 36 45 41 30 10"},
        {'1', "04 26 20"},
        {'2', "05 16 36 45 44 00 40"},
        {'3', "06 46 24 43 41 30 10 01"},
        {'4', "30 36 02 42"},
        {'5', "46 06 03 33 42 41 30 00"},
        {'6', "46 16 03 01 10 30 41 42 33 13 02"},
        {'7', "06 46 10"},
        {'8', "13 04 05 16 36 45 44 33 13 02 01 10 30 41 42 33"},
        {'9', "44 33 13 04 05 16 36 45 41 30 10"},
        {'A', "00 26 40|12 32"},
        {'B', "00 06 36 45 44 33 03|33 42 41 30 00"},
        {'C', "45 36 16 05 01 10 30 41"},
        {'D', "00 06 26 44 42 20 00"},
        {'E', "46 06 00 40|03 33"},
        {'F', "46 06 00|03 33"},
        {'M', "00 06 23 46 40"},
        {'R', "00 06 36 45 44 33 03|23 40"},
        {'S', "45 36 16 05 04 13 33 42 41 30 10 01"},
        {'X', "00 46|06 40"},
    };
    return paths;
}

} // namespace

std::vector<Stroke> written(const std::string &text, double x_mm, double y_mm, double height_mm,
                            Draws &draws) {
    std::vector<Stroke> strokes;
    const double unit = height_mm / 6.0;
    const double slant = draws.uniform(-0.1, 0.3);
    for (const char letter : text) {
        const auto path = letter_paths().find(letter);
        const std::string points = path == letter_paths().end() ? "" : path->second;
        bool down = false;
        double last_x = 0.0;
        double last_y = 0.0;
        for (std::size_t k = 0; k + 1 < points.size(); k += 3) {
            const double column = points[k] - '0' + 0.2 * draws.normal();
            const double row = points[k + 1] - '0' + 0.2 * draws.normal();
            const double x = x_mm + unit * (column + slant * row);
            const double y = y_mm + unit * row;
            if (down) {
                strokes.push_back({last_x, last_y, x, y});
            }
            last_x = x;
            last_y = y;
            down = k + 2 < points.size() && points[k + 2] == ' ';
        }
        x_mm += 5.6 * unit;
    }
    return strokes;
}

} // namespace cospot::rendering
