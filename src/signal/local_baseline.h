#pragma once

#include "signal/peak_measures.h"

#include <vector>

namespace cospot::signal {

/// Draws the baseline anew under each group of peaks: a straight line between the signal where the
/// group starts and where it ends. The baseline of the whole trace, which serves to find peaks,
/// may lie far below the signal where peaks stand on a hump or a slope.
///
/// A group are peaks that share borders; but groups are parted by a valley that lies as low as the
/// line, by one that is a hundredth of the lower peak, and by one that is a tenth of a peak whose
/// neighbour is three times as wide, as humps are. The group starts and ends where the line that
/// touches the signal from below on both sides touches it: there peaks have ended, on whatever
/// slope they stand. Because noise would draw that line down, it is then drawn through means of the
/// recorded signal over up to a half width beyond each end, as far as the signal stays at its level
/// there; at a valley, through the smoothed signal.
///
/// The baseline of the whole trace is kept under a group that the trace cuts off, and where the
/// line would lie above the signal by more than noise explains. `places` get the new borders,
/// `trace` the lines, and `baseline` what they are under the groups.
void draw_local_baselines(CorrectedTrace &trace, std::vector<PeakPlace> &places,
                          std::vector<double> &baseline);

} // namespace cospot::signal
