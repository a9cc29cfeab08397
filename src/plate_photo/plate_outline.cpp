#include "plate_photo/plate_outline.h"

#include "plate_photo/edge_lines.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace cospot::plate_photo {

namespace {

constexpr std::size_t kMostLines = 30;
constexpr double kLeastOutlineEdge = 0.08; ///< of the photo's longer side
constexpr double kMostRatio = 1.7;         ///< of opposite edges: 30 degrees of tilt from close by
constexpr double kMostElongated = 5.2;     ///< strips of 20 x 100 mm; what is longer is a ruler
constexpr double kLeastSine = 0.75;        ///< of the angle between neighbouring edges
/// Rows that tell the same as their neighbours, since changes are evened along 9 pixels.
constexpr double kAlikeRows = 6.0;
/// Of an edge's length: just beyond its corners it should no longer be seen. What is seen there
/// stands for half of the edge.
constexpr double kBeyond = 0.1;
constexpr double kBeyondWeight = 5.0;
constexpr double kBeyondWithin = 0.3; ///< of an edge's length, where a shadow within goes on
/// Evidence, a row, of an edge that is as clear as any: black on white is hardly more of a plate's.
constexpr double kClearEdge = 4.0;
constexpr double kBeyondClear = 0.1; ///< of what is above it, that counts
constexpr double kClear = 0.03; ///< of the height, by which an inner outline is clear of an outer
constexpr double kEdgePx = 6.0; ///< lines closer to an edge than this may be the edge itself
constexpr double kWithin = 0.7; ///< weight of edges within, some of which are drawn or wet borders
constexpr std::size_t kLookedInto = 3000; ///< candidates
constexpr double kOnPaper = 0.4;          ///< of a sheet's evidence, that a plate on it has
constexpr double kAnotherThing = 0.5;     ///< of the evidence, that another thing may be the plate
constexpr double kAsWeak = 0.25;          ///< of the weakest edge
constexpr double kTouchingPx = 3.0; ///< by which an inner outline may seem to reach over an outer
constexpr double kGapPx = 2.0;  ///< between two things; what is nearer may be made of one's edges
constexpr double kSamePx = 7.0; ///< within which edges at full size are looked for
constexpr double kSame = 0.025; ///< of the height, within which corners are the same

/// Evidence along a line between two rows of its photo.
struct Stretch {
    double edge = 0.0;
    double step = 0.0;
};

Stretch stretch(const EdgeLine &line, double from, double to) {
    const auto last = std::ssize(line.edge_sums) - 1;
    const auto row = [&](double y) {
        return static_cast<std::size_t>(std::clamp(std::lround(y), 0L, last));
    };
    const double longer = std::hypot(1.0, line.slope) / kAlikeRows;
    return {longer * (line.edge_sums[row(to)] - line.edge_sums[row(from)]),
            longer * (line.step_sums[row(to)] - line.step_sums[row(from)])};
}

/// For the edge, and against it where the line goes on beyond the corners.
double evidence_between(const EdgeLine &line, double from, double to) {
    const double beyond = kBeyond * (to - from);
    const Stretch edge = stretch(line, from, to);
    const double before = kBeyondWeight * stretch(line, from - beyond, from).edge;
    const double after = kBeyondWeight * stretch(line, to, to + beyond).edge;
    const double clear = kClearEdge * (to - from) / kAlikeRows;
    const double seen = edge.edge + edge.step;
    const double bounded = seen < clear ? seen : clear + kBeyondClear * (seen - clear);
    return bounded - std::max(0.0, before) - std::max(0.0, after);
}

/// Of a line that goes down and one that goes to the right, whose x and y are exchanged.
Place crossing(const EdgeLine &down, const EdgeLine &right) {
    const double x = (down.top + down.slope * right.top) / (1.0 - down.slope * right.slope);
    return {x, right.top + right.slope * x};
}

/// Evidence that a line is an edge of something that ends within or at two borders that it crosses:
/// a shadow goes on beyond them.
double evidence_within(const EdgeLine &line, double from, double to) {
    const double beyond = kBeyondWithin * (to - from);
    const Stretch inside = stretch(line, from, to);
    const double outside =
        stretch(line, from - beyond, from).edge + stretch(line, to, to + beyond).edge;
    return inside.edge + inside.step - std::max(0.0, outside) / (2.0 * kBeyondWithin);
}

struct OutlineCandidate {
    Corners corners{};
    double evidence = 0.0;
    double weakest = 0.0;
};

double sine_at(Place before, Place corner, Place after) {
    const double across =
        (corner.x - before.x) * (after.y - corner.y) - (corner.y - before.y) * (after.x - corner.x);
    return across / (distance(before, corner) * distance(corner, after));
}

/// Whether a rectangle can look like this in perspective.
bool plausible(const Corners &corners, int width, int height) {
    const double least = kLeastOutlineEdge * std::max(width, height);
    std::array<double, 4> edges{};
    for (std::size_t i = 0; i < 4; ++i) {
        const auto [x, y] = corners[i];
        if (x < 0.0 || y < 0.0 || x > width || y > height) {
            return false;
        }
        edges[i] = distance(corners[i], corners[(i + 1) % 4]);
        if (edges[i] < least) {
            return false;
        }
    }
    if (std::max(edges[0] + edges[2], edges[1] + edges[3]) >
        kMostElongated * std::min(edges[0] + edges[2], edges[1] + edges[3])) {
        return false;
    }
    for (std::size_t i = 0; i < 4; ++i) {
        if (edges[i] > kMostRatio * edges[(i + 2) % 4] ||
            sine_at(corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]) < kLeastSine) {
            return false;
        }
    }
    return true;
}

double height_of(const Corners &corners) {
    return 0.5 * (distance(corners[0], corners[3]) + distance(corners[1], corners[2]));
}

/// The largest distance between corners that belong together, by the height.
double difference(const Corners &a, const Corners &b) {
    double most = 0.0;
    for (std::size_t i = 0; i < 4; ++i) {
        most = std::max(most, distance(a[i], b[i]));
    }
    return most / height_of(a);
}

/// How far a place lies from the line through an edge, to the side of the plate.
double inwards(Place from, Place to, Place p) {
    return ((to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x)) /
           distance(from, to);
}

/// Whether one outline may be a plate and the other the paper that it lies on, or a mixture of
/// both: the inner one is clear of three edges at least. What shares two edges with a plate may be
/// its part between two lines on it.
bool lies_on(const Corners &inner, const Corners &outer) {
    const double clear = kClear * height_of(outer);
    int clear_edges = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        double least = 1e9;
        for (const Place p : inner) {
            least = std::min(least, inwards(outer[i], outer[(i + 1) % 4], p));
        }
        if (least < -kTouchingPx) {
            return false;
        }
        clear_edges += least > clear ? 1 : 0;
    }
    return clear_edges >= 3;
}

/// Whether one of the edges of `a` has all of `b` outside of it, with a gap between.
bool has_outside(const Corners &a, const Corners &b) {
    for (std::size_t i = 0; i < 4; ++i) {
        const Place from = a[i];
        const Place to = a[(i + 1) % 4];
        if (std::all_of(b.begin(), b.end(),
                        [&](Place p) { return inwards(from, to, p) < -kGapPx; })) {
            return true;
        }
    }
    return false;
}

/// Whether two outlines have nothing of the photo in common: each is another thing.
bool apart(const Corners &a, const Corners &b) {
    return has_outside(a, b) || has_outside(b, a);
}

/// The four edges' evidence, from above to the right, below and to the left.
std::optional<OutlineCandidate> outline_candidate(const EdgeLine &left, const EdgeLine &right,
                                                  const EdgeLine &upper, const EdgeLine &lower,
                                                  const ReducedPhoto &photo) {
    const Corners corners{crossing(left, upper), crossing(right, upper), crossing(right, lower),
                          crossing(left, lower)};
    if (!plausible(corners, photo.width, photo.height)) {
        return std::nullopt;
    }
    const std::array<double, 4> evidence{evidence_between(upper, corners[0].x, corners[1].x),
                                         evidence_between(right, corners[1].y, corners[2].y),
                                         evidence_between(lower, corners[3].x, corners[2].x),
                                         evidence_between(left, corners[0].y, corners[3].y)};
    OutlineCandidate result{corners, std::accumulate(evidence.begin(), evidence.end(), 0.0), 1e9};
    for (std::size_t i = 0; i < 4; ++i) {
        result.weakest =
            std::min(result.weakest, evidence[i] / distance(corners[i], corners[(i + 1) % 4]));
    }
    return result;
}

/// Where a line that goes down crosses the straight line through two places of the photo, as a
/// share of the way from the first to the second, and the row.
struct Crossing {
    double share = 0.0;
    double row = 0.0;
};

Crossing crossing(const EdgeLine &line, Place from, Place to) {
    const auto right_of_line = [&](Place p) { return p.x - line.top - line.slope * p.y; };
    const double share = right_of_line(from) / (right_of_line(from) - right_of_line(to));
    return {share, from.y + share * (to.y - from.y)};
}

/// Evidence of the two lines that most likely are edges within an outline. `corners` are its upper
/// left, upper right, lower right and lower left.
double edges_within(const std::vector<EdgeLine> &down, const Corners &corners) {
    struct Inner {
        double share = 0.0;
        double evidence = 0.0;
    };
    std::array<Inner, 2> best{};
    const double margin =
        kEdgePx / std::min(distance(corners[0], corners[1]), distance(corners[3], corners[2]));
    for (const EdgeLine &line : down) {
        const Crossing above = crossing(line, corners[0], corners[1]);
        const Crossing below = crossing(line, corners[3], corners[2]);
        const auto inside = [&](double share) { return share > margin && share < 1.0 - margin; };
        if (!inside(above.share) || !inside(below.share)) {
            continue;
        }
        const Inner inner{0.5 * (above.share + below.share),
                          evidence_within(line, above.row, below.row)};
        if (inner.evidence > best[0].evidence) {
            if (std::abs(inner.share - best[0].share) > margin) {
                best[1] = best[0];
            }
            best[0] = inner;
        } else if (inner.evidence > best[1].evidence &&
                   std::abs(inner.share - best[0].share) > margin) {
            best[1] = inner;
        }
    }
    return best[0].evidence + best[1].evidence;
}

Place exchanged(Place place) {
    return {place.y, place.x};
}

std::vector<EdgeLine> in_order(std::vector<EdgeLine> lines, double middle) {
    const auto at_middle = [&](const EdgeLine &line) { return line.top + line.slope * middle; };
    std::sort(lines.begin(), lines.end(),
              [&](const EdgeLine &a, const EdgeLine &b) { return at_middle(a) < at_middle(b); });
    return lines;
}

/// All that have evidence on each of their edges, the best first.
std::vector<OutlineCandidate> outline_candidates(const ReducedPhoto &photo) {
    const auto down = in_order(edge_lines(photo, kMostLines), 0.5 * photo.height);
    const auto right = in_order(edge_lines(transposed(photo), kMostLines), 0.5 * photo.width);
    std::vector<OutlineCandidate> found;
    for (std::size_t i = 0; i < down.size(); ++i) {
        for (std::size_t j = i + 1; j < down.size(); ++j) {
            for (std::size_t k = 0; k < right.size(); ++k) {
                for (std::size_t l = k + 1; l < right.size(); ++l) {
                    const auto one = outline_candidate(down[i], down[j], right[k], right[l], photo);
                    if (one && one->weakest > 0.0) {
                        found.push_back(*one);
                    }
                }
            }
        }
    }
    const auto by_evidence = [](const OutlineCandidate &a, const OutlineCandidate &b) {
        return a.evidence > b.evidence;
    };
    std::stable_sort(found.begin(), found.end(), by_evidence);
    found.resize(std::min(found.size(), kLookedInto));
    for (OutlineCandidate &one : found) {
        const auto &c = one.corners;
        one.evidence -= kWithin * (edges_within(down, c) +
                                   edges_within(right, {exchanged(c[0]), exchanged(c[3]),
                                                        exchanged(c[2]), exchanged(c[1])}));
    }
    std::stable_sort(found.begin(), found.end(), by_evidence);
    return found;
}

/// The best, or the plate on it where that is a sheet of paper.
const OutlineCandidate &innermost(const std::vector<OutlineCandidate> &found) {
    const OutlineCandidate *best = &found.front();
    for (const OutlineCandidate &other : found) {
        if (other.evidence > kOnPaper * best->evidence && other.weakest > kAsWeak * best->weakest &&
            lies_on(other.corners, best->corners)) {
            best = &other;
        }
    }
    return *best;
}

} // namespace

std::optional<PlateOutline> plate_outline(const ReducedPhoto &photo) {
    const auto found = outline_candidates(photo);
    if (found.empty()) {
        return std::nullopt;
    }
    const OutlineCandidate &best = innermost(found);
    PlateOutline outline{best.corners, best.evidence, best.evidence, best.weakest, true};
    const double height = height_of(best.corners);
    for (const OutlineCandidate &other : found) {
        if (difference(best.corners, other.corners) > std::max(kSame, kSamePx / height) &&
            !lies_on(best.corners, other.corners)) {
            outline.lead = std::min(outline.lead, best.evidence - other.evidence);
        }
        outline.alone &=
            !(other.evidence > kAnotherThing * best.evidence &&
              other.weakest > kAsWeak * best.weakest && apart(best.corners, other.corners));
    }
    return outline;
}

} // namespace cospot::plate_photo
