#include "evidence/unmarked_standards.h"

#include "library/compounds.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <vector>

namespace cospot {

std::optional<std::string> unmarked_standards_words(std::span<const PlateSpot> plate,
                                                    library::Database &database) {
    std::vector<std::string> names;
    for (const PlateSpot &spot : plate) {
        if (spot.role != RowRole::sample) {
            return std::nullopt;
        }
        const bool is_new = std::find(names.begin(), names.end(), spot.label) == names.end();
        if (is_new && !spot.label.empty() && !library::find_by_name(database, spot.label).empty()) {
            names.push_back(spot.label);
        }
    }
    if (names.empty()) {
        return std::nullopt;
    }
    const std::string list = fmt::format("{}", fmt::join(names, ","));
    const bool needs_quotes = list.find_first_of(" '") != std::string::npos;
    return fmt::format("no lane is marked as a standard, but the library holds {}: if {}, write "
                       "standard in a column role, or give --standards {}",
                       fmt::join(names, ", "),
                       names.size() == 1 ? "that lane is one" : "those lanes are standards",
                       needs_quotes ? in_quotes(list, list.size()) : list);
}

} // namespace cospot
