#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace cospot {

/// The name that this program uses for a solvent, whatever laboratories call it in English or
/// German: "EtOAc", "EE" and "Essigester" are "ethyl acetate", "PE 40/60" is "petroleum ether".
/// Case, blanks around and a boiling range do not matter. Empty for what is no solvent that is
/// known. Names and abbreviations are common practice, no source.
[[nodiscard]] std::string_view known_solvent(std::string_view text);

/// The same; for what is not known, the text in lower case, so that it is at least like itself.
[[nodiscard]] std::string solvent_key(std::string_view text);

/// The length of a boiling range such as "40/60", "(40-60)" or "60-80 °C" that stands at `at` or
/// behind blanks there, from `at` on; 0: none stands there. Both numbers have two or three
/// digits, and the second is the larger one.
[[nodiscard]] std::size_t boiling_range_length(std::string_view text, std::size_t at);

} // namespace cospot
