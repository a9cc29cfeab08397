#pragma once

#include "identify/identify_options.h"
#include "library/database.h"
#include "readers/feature.h"

#include <iosfwd>

namespace cospot {

/// The features of all files that are asked for, in which runs and samples have names of their own;
/// of a sample on two columns, those of both joined. Throws InputError where a file is faulty or
/// given twice.
[[nodiscard]] FeatureSet features_of_files(const IdentifyOptions &asked,
                                           library::Database &database,
                                           std::istream &standard_input);

} // namespace cospot
