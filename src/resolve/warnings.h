#pragma once

#include "resolve/choice.h"

#include <string>
#include <vector>

namespace cospot::resolve {

/// What speaks against trusting the lines, one sentence each: retention that rises with the
/// modifier, lines that bend, fractions too close together, an order of elution that contradicts
/// log P. Two compounds contradict it where log P differs by 1.5 or more, one and a half times the
/// standard error of a difference (0.68 for a compound: wildman1999, from memory), and k in the
/// middle of the measured range by more than a tenth the other way. All these limits are our own
/// choice.
[[nodiscard]] std::vector<std::string> warnings_of(const Question &question, const Choice &choice);

} // namespace cospot::resolve
