#pragma once

#include "plate_photo/reduced_photo.h"

#include <array>
#include <cstddef>
#include <vector>

namespace cospot::plate_photo {

/// Slopes dx/dy of edges that go more or less downwards, 10 degrees apart and up to 36 from
/// upright: a plate turned by 15 degrees, with what perspective adds.
inline constexpr std::array<double, 9> kSlopes{-0.72, -0.54, -0.36, -0.18, 0.0,
                                               0.18,  0.36,  0.54,  0.72};
[[nodiscard]] std::size_t nearest_slope(double slope);

/// How much more likely a change of light is on a plate's edge than elsewhere in the same picture:
/// the natural logarithm of the ratio. The changes elsewhere are ranked; p is the share of them
/// that are as strong. On an edge p follows a mixture of a beta and a uniform density, the second
/// for what covers the edge (form of Pounds and Morris 2003, from memory). So the grain of wood,
/// which is full of lines in its direction, tells little, and a faint edge on even paper much.
class ChangeScale {
public:
    /// `visible` is the share of an edge that shows, `strongest` the exponent of the beta density:
    /// the lower, the stronger an edge is expected to be.
    ChangeScale(double visible, double strongest);

    void add(float change) { ++counts_[bucket(change)]; }
    void finish();
    [[nodiscard]] float log_ratio(float change) const { return ratios_[bucket(change)]; }

private:
    [[nodiscard]] static std::size_t bucket(float change);
    double visible_;
    double strongest_;
    std::vector<std::size_t> counts_;
    std::vector<float> ratios_;
};

/// Evidence of edges in each of the directions of kSlopes, one value a pixel.
struct EdgeEvidence {
    int width = 0;
    int height = 0;
    std::array<std::vector<float>, kSlopes.size()> log_ratios;
};

/// Changes of colour across each direction (Di Zenzo 1986: all channels together), evened along it
/// over 9 pixels, the largest of 3 neighbours.
[[nodiscard]] EdgeEvidence edge_evidence(const ReducedPhoto &photo);

} // namespace cospot::plate_photo
