#pragma once

#include <string>
#include <string_view>

namespace cospot::descriptors {

/// The structural formula as an SVG element to stand inside a page: no XML declaration, no
/// background, strokes and letters (drawn as paths) in `currentColor`, so that it takes the colour
/// of the text around it. `width` and `height` are its view box in pixels, 1 to 2000; the page
/// decides how large it is shown. Refuses what `read_smiles` refuses but for InChI's own limits.
[[nodiscard]] std::string structure_svg(std::string_view smiles, int width, int height);

} // namespace cospot::descriptors
