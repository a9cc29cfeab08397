#pragma once

#include "readers/feature.h"
#include "shared/table.h"

#include <iosfwd>
#include <string>

namespace cospot {

/// Reads the long table for `identify` (columns sample,feature,system,quantity,value, optional
/// uncertainty,area,compound,role and further evidence). A row with a compound is a standard unless
/// its role says "sample": it ran beside the features of its sample, or beside all where it names
/// none. Without `names_are_standards` its role must say so where it names a sample; else the
/// feature is named (`Feature::named`). Rows that share sample and
/// feature are one feature, in the order of their first rows; several readings on one system are
/// averaged. A row without system, quantity and value may give further evidence
/// (further_evidence_columns.h) alone. Throws InputError for impossible values, an uncertainty that
/// is not positive and a feature without any retention.
[[nodiscard]] FeatureSet read_feature_table(std::istream &in, const std::string &file,
                                            const TableForm &form = {},
                                            bool names_are_standards = true);

} // namespace cospot
