#pragma once

#include "readers/feature.h"

#include <string>

namespace cospot {

/// One sample's peaks on two columns as one set of features: those of peaks that are taken for one
/// compound (`pair_peaks`) have the readings of both columns, all others of their own column. What
/// was paired stands in `Feature::pair`. `file` is that of the second column, for messages. Throws
/// InputError for a peak without an area, and for what is not one run a column.
[[nodiscard]] FeatureSet on_two_columns(FeatureSet first, FeatureSet second,
                                        const std::string &file);

} // namespace cospot
