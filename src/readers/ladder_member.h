#pragma once

#include "quantities/index_scale.h"

#include <optional>
#include <string_view>

namespace cospot {

/// A member of a ladder as tables call it.
struct LadderMember {
    int carbon = 0;
    std::optional<quantities::IndexScale> scale{}; ///< where a name tells it
};

/// Reads "C7", "n-C9", "C5 Pentan", "C9 n-nonane", "nonane", "Nonan": the number behind the C, else
/// the carbon number of the homologue that is named, in English or with the German ending. Empty
/// for what is none of them, and where number and name contradict each other.
[[nodiscard]] std::optional<LadderMember> ladder_member(std::string_view text);

} // namespace cospot
