#pragma once

#include "resolve/choice.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot::resolve {

/// A question with what was found, and what the reader of both should know.
struct Answer {
    Question question;
    Choice choice;
    std::string modifier = "modifier"; ///< the solvent that the fractions count
    std::string plate_basis;           ///< where the plate number comes from
    std::optional<double> hold_up_min;
    std::vector<std::string> systems; ///< of the library; empty for a table
    std::vector<std::string> notes;
};

} // namespace cospot::resolve
