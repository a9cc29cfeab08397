#pragma once

#include "purity/judged_sample.h"
#include "purity/rules.h"

#include <functional>
#include <optional>
#include <string>

namespace cospot::purity {

/// The response of a compound relative to the declared one on the system of the sample, where the
/// library holds it.
using ResponseLookup = std::function<std::optional<double>(const std::string &compound)>;

/// Per cent of every feature that is not the blank's, and which of them are at or below the
/// reporting threshold. A response factor counts where the feature is more likely that compound
/// than anything else; it is 1 elsewhere. `unnamed_per_cent` has the shares without the factors
/// of names that rest on retention alone. Does nothing where the input has no areas. Throws
/// InputError where some features have an area and some none, those stated as too little to be
/// measured apart, which count as 0; and where all areas are 0; `file` is
/// named then.
void set_amounts(JudgedSample &sample, const ResponseLookup &response_of, const Rules &rules,
                 std::optional<double> dose_mg, const std::string &file);

/// Retention of every feature relative to the main one, adjusted where the hold-up time is known.
void set_relative_retention(JudgedSample &sample, std::optional<double> hold_up_min);

} // namespace cospot::purity
