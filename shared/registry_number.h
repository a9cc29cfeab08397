#pragma once

#include "shared/error.h"

#include <string_view>

namespace cospot {

/// Whether the text is a CAS registry number: two to seven digits, two digits, and a check digit
/// that equals the sum of the digits before it, each times its place counted from the right, modulo
/// 10 (rule as the registry publishes it).
[[nodiscard]] bool is_registry_number(std::string_view text);

/// Throws InputError unless `is_registry_number`, and says whether form or check digit is wrong.
void check_registry_number(std::string_view text, const Where &where);

} // namespace cospot
