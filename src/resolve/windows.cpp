#include "resolve/windows.h"

namespace cospot::resolve {

namespace {

bool is_better(const CurvePoint &a, const CurvePoint &b) {
    const bool a_keeps = a.outside_window == 0;
    const bool b_keeps = b.outside_window == 0;
    return a_keeps != b_keeps ? a_keeps : a.resolution > b.resolution;
}

} // namespace

std::vector<Window> windows_of(const std::vector<CurvePoint> &curve) {
    std::vector<Window> windows;
    if (curve.empty()) {
        return windows;
    }
    windows.push_back({});
    bool is_falling = false;
    for (std::size_t i = 1; i < curve.size(); ++i) {
        if (is_falling && curve[i].resolution > curve[i - 1].resolution) { // past a minimum
            windows.push_back({i - 1, i - 1, i - 1});
            is_falling = false;
        } else if (curve[i].resolution < curve[i - 1].resolution) {
            is_falling = true;
        }
        Window &window = windows.back();
        window.last = i;
        if (is_better(curve[i], curve[window.top])) {
            window.top = i;
        }
    }
    return windows;
}

} // namespace cospot::resolve
