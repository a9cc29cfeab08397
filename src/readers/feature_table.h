#pragma once

#include "evidence/feature.h"

#include <iosfwd>
#include <string>

namespace cospot {

/// Reads the long table for `identify` (columns sample,feature,system,quantity,value, optional
/// uncertainty,area). Rows that share sample and feature are one feature, in the order of their
/// first rows; several readings on one system are averaged. Throws InputError for impossible values
/// and an uncertainty that is not positive.
[[nodiscard]] FeatureSet read_feature_table(std::istream &in, const std::string &file);

} // namespace cospot
