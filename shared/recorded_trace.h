#pragma once

#include <string>
#include <vector>

namespace cospot {

/// The signal of a run as it was recorded, with the baseline that its peaks were measured on; all
/// three of one length, times in min and ascending.
struct RecordedTrace {
    std::vector<double> time_min;
    std::vector<double> signal;
    std::vector<double> baseline;
    std::string signal_unit{}; ///< as the file has it; may be empty
};

} // namespace cospot
