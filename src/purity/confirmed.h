#pragma once

#include "purity/judged_sample.h"

#include <string>
#include <vector>

namespace cospot::purity {

/// Marks the feature of each compound whose identity the user states to be confirmed, which
/// retention alone never is: the one that the table names so, where retention does not contradict
/// it, else the one at which the compound is likelier than anything else (`is_likeliest`). A
/// statement never takes a feature from a likelier compound: where the compound might be a feature
/// that it is not the likeliest of, a warning says what is, and nothing changes. A note says which
/// feature was taken, or why none. Needs the main feature, see `choose_main`.
void set_confirmed(JudgedSample &sample, const std::vector<std::string> &confirmed);

} // namespace cospot::purity
