#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace cospot::signal {

/// Spikes, of one or two points up or down, replaced in place by the line between their neighbours;
/// returns the points. No peak is so narrow that it falls from its top to a level that stays even
/// within a point: neighbours of a spike must agree to three tenths of its height, and it must
/// stand out by ten deviations of the differences between points (common practice, no source).
std::vector<std::size_t> replace_spikes(std::span<double> y);

} // namespace cospot::signal
