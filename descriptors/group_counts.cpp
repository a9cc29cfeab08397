#include "descriptors/group_counts.h"

#include "descriptors/functional_groups.h"
#include "descriptors/pattern_table.h"

namespace cospot::descriptors {

namespace {

std::vector<Pattern> compiled() {
    std::vector<Pattern> patterns;
    for (const FunctionalGroup &group : functional_groups()) {
        patterns.emplace_back(group.smarts);
    }
    return patterns;
}

} // namespace

std::vector<int> count_groups(const RDKit::ROMol &molecule) {
    thread_local const std::vector<Pattern> patterns = compiled(); // matching writes into them
    const Elements present = elements_of(molecule);
    std::vector<int> counts;
    counts.reserve(patterns.size());
    for (const Pattern &pattern : patterns) {
        counts.push_back(static_cast<int>(pattern.matches(molecule, present).size()));
    }
    return counts;
}

} // namespace cospot::descriptors
