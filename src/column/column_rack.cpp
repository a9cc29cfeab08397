#include "column/column_rack.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

using fractions::ColumnPlan;
using fractions::PlannedBand;

constexpr int kMaxRackNumber = 3000; ///< of the last tube
constexpr int kMaxRackTubes = 300;   ///< from the first that holds something to the last

bool is_expected_in(const PlannedBand &band, int number) {
    return band.first_fraction && band.last_fraction && number >= *band.first_fraction &&
           number <= *band.last_fraction;
}

bool is_possible_in(const PlannedBand &band, int number) {
    return band.first_in_95 && number >= *band.first_in_95 &&
           (!band.last_in_95 || number <= *band.last_in_95);
}

DrawnTube tube_of(const ColumnPlan &plan, int number) {
    DrawnTube tube{.number = number};
    bool is_possible = false;
    std::size_t count = 0;
    for (std::size_t i = 0; i < plan.bands.size(); ++i) {
        is_possible = is_possible || is_possible_in(plan.bands[i], number);
        if (!is_expected_in(plan.bands[i], number)) {
            continue;
        }
        ++count;
        tube.letters += rack_letter(plan, i);
        tube.words += (tube.words.empty() ? fmt::format("fraction {}: ", number) : ", ") +
                      plan.compounds[i].name;
        const bool is_target = plan.target == i;
        tube.holds_target = tube.holds_target || is_target;
        if (tube.key.empty() || is_target) {
            tube.key = std::to_string(i + 1);
        }
    }
    tube.content = count > 1     ? TubeContent::several
                   : count == 1  ? TubeContent::one
                   : is_possible ? TubeContent::possible
                                 : TubeContent::none;
    return tube;
}

} // namespace

std::string rack_letter(const ColumnPlan &plan, std::size_t compound) {
    constexpr std::size_t letters = 26;
    if (!plan.bands[compound].first_fraction) {
        return "";
    }
    return compound < letters ? std::string(1, static_cast<char>('A' + compound))
                              : std::to_string(compound + 1);
}

std::string fractions_words(const std::optional<int> &first, const std::optional<int> &last) {
    if (!first || !last) {
        return "";
    }
    if (*last == 0) {
        return "discarded";
    }
    if (*first == 0) {
        return fmt::format("up to {}", *last);
    }
    return *first == *last ? fmt::format("{}", *first) : fmt::format("{}–{}", *first, *last);
}

std::vector<int> fractions_of_target_alone(const ColumnPlan &plan) {
    std::vector<int> alone;
    if (!plan.target) {
        return alone;
    }
    const PlannedBand &target = plan.bands[*plan.target];
    if (!target.first_fraction || !target.last_fraction) {
        return alone;
    }
    for (int number = std::max(1, *target.first_fraction); number <= *target.last_fraction;
         ++number) {
        const auto holders =
            std::count_if(plan.bands.begin(), plan.bands.end(),
                          [&](const PlannedBand &band) { return is_expected_in(band, number); });
        if (holders == 1) {
            alone.push_back(number);
        }
    }
    return alone;
}

std::optional<DrawnRack> planned_rack(const ColumnResult &result) {
    int first = kMaxRackNumber;
    int last = 0;
    for (const PlannedBand &band : result.plan.bands) {
        if (band.first_fraction) {
            first = std::min(first, std::max(1, *band.first_fraction));
            last = std::max(last, band.last_fraction.value_or(kMaxRackNumber + 1));
        }
    }
    if (last == 0 || last > kMaxRackNumber || last - first >= kMaxRackTubes) {
        return std::nullopt;
    }
    DrawnRack rack{*result.plan.fraction_ml, result.settings.discarded_ml, {}};
    for (int number = 1; number <= last; ++number) {
        rack.tubes.push_back(tube_of(result.plan, number));
    }
    return rack;
}

} // namespace cospot
