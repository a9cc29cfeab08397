#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// Whether a header usually means the column that a reader knows under another name: "Ret. Time
/// [min]" and "RT" are tR, "Area [pA*s]" is area, "Area [%]" is not. Case, stops and a unit in
/// brackets do not matter. Words of the trade (common practice, no source); they are proposed,
/// never taken.
[[nodiscard]] bool usually_means(std::string_view header, std::string_view column);

/// What to write for the headers that usually mean one of `columns`: `--map tR="Ret. Time [min]"
/// --map area="Area [pA*s]"`, the first header of each; empty where there is none.
[[nodiscard]] std::string proposed_maps(const std::vector<std::string> &headers,
                                        const std::vector<std::string> &columns,
                                        std::string_view option = "--map");

} // namespace cospot
