#pragma once

#include <string_view>

namespace cospot {

/// Stands under every result that names compounds.
inline constexpr std::string_view kRetentionIsNoProof =
    "Retention alone is no proof of identity: confirm with a reference standard and an independent "
    "method.";

} // namespace cospot
