#pragma once

#include "signal/peak_measures.h"

#include <vector>

namespace cospot::signal {

/// Draws the baseline anew under each group of peaks: a straight line between the signal where the
/// group starts and where it ends. The baseline of the whole trace, which serves to find peaks,
/// may lie far below the signal where peaks stand on a hump or a slope.
///
/// A group are peaks that share borders. Groups are parted by a valley that touches the line, by
/// one that is a hundredth of the lower peak, by one that is level over half a half width, and by
/// one a tenth of a peak whose neighbour is three times as wide, as humps are.
/// Its start and end are where a line touches the signal from below on both sides: there peaks have
/// ended, on whatever slope they stand. It is sought as far as the signal falls, and a half width
/// beyond, for tails. Noise would draw that line down: so it is drawn through means of the recorded
/// signal, over up to a half width beyond each end, as far as the signal stays at its level there;
/// at a valley, through the smoothed signal, which beside a steep peak lies too low by up to half a
/// hundredth of its height (means of three points did not, but had more noise).
///
/// The baseline of the whole trace is kept: under a group that reaches an end of the trace; where
/// the line would lie above the signal by more than noise explains; and where neither end lies off
/// it by more than noise explains, because many points tell it better than few. Tails five times as
/// long as sigma and longer, of weak peaks, are taken for a slope at times: then areas come out too
/// small (by 2 % in the median, at a height of 30 deviations of white or filtered noise).
///
/// `places` get the new borders, `trace` the lines, and `baseline` what they are under the groups.
void draw_local_baselines(CorrectedTrace &trace, std::vector<PeakPlace> &places,
                          std::vector<double> &baseline);

} // namespace cospot::signal
