#pragma once

#include "model/matcher/system_model.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace cospot::matcher {

/// A reading of a run with the compound that its label names.
struct LabelledReading {
    std::size_t compound = 0;
    double value = 0.0;       ///< in the unit of the quantity
    double uncertainty = 0.0; ///< standard uncertainty of the reading, same unit
};

/// What the readings say of their labels.
enum class LabelFault { none, exchanged, reversed, one_wrong };

struct LabelCheck {
    LabelFault fault = LabelFault::none; ///< the likeliest way in which the labels are wrong, if so
    double as_given = 1.0;               ///< probability that all labels are right
    /// For each reading the compound that it would be: its own where nothing speaks against the
    /// label, none where it would be something else.
    std::vector<std::optional<std::size_t>> would_be;
    std::vector<bool> trusted; ///< likelier right than wrong, and no part of a likely fault

    [[nodiscard]] bool is_doubted() const { return fault != LabelFault::none; }
};

/// "the labels of two standards seem exchanged", or may be where they are likelier right than not.
[[nodiscard]] std::string fault_words(const LabelCheck &check);

/// Compares the labels of the standards of one run and system with each exchange of two, with their
/// reverse and with one of them being something else, over all ways in which the run may lie
/// against the library (MODEL.md, section 5). A label whose compound the system does not hold is
/// trusted and tells nothing; so is a reading at the start or the front.
[[nodiscard]] LabelCheck check_labels(std::span<const LabelledReading> readings,
                                      const SystemModel &system);

} // namespace cospot::matcher
