#pragma once

#include "purity/judged_sample.h"

#include <string>
#include <vector>

namespace cospot::purity {

/// Marks the feature of each compound whose identity the user states to be confirmed, which
/// retention alone never is: the declared compound's is the main one, any other's the one that it
/// the table names so, else the one that it most probably is. A note says which, or why none: no
/// feature fits it with 5 % or more, or several do with 10 % or more. Needs the main feature, see
/// `choose_main`.
void set_confirmed(JudgedSample &sample, const std::vector<std::string> &confirmed);

} // namespace cospot::purity
