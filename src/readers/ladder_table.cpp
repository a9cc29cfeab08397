#include "readers/ladder_table.h"

#include "readers/instrument_number.h"
#include "shared/error.h"
#include "shared/number.h"
#include "shared/table.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <cmath>

namespace cospot {

namespace {

constexpr double kLongestChain = 200.0;

double carbon_of_name(const TableReader &table, quantities::IndexScale system_scale) {
    const std::string_view name = table.required_text("standard", "the name of a ladder member");
    const auto homologue = quantities::homologue_from_name(name);
    if (!homologue) {
        throw InputError(table.where("standard"), in_quotes(name),
                         fmt::format("a homologue of the {} scale, or a column carbon with its "
                                     "carbon number",
                                     quantities::to_text(system_scale)));
    }
    if (homologue->scale != system_scale) {
        throw InputError(table.where("standard"),
                         fmt::format("{}, of the {} scale", in_quotes(name),
                                     quantities::to_text(homologue->scale)),
                         fmt::format("a homologue of the system's {} scale: indices of different "
                                     "scales are never mixed",
                                     quantities::to_text(system_scale)));
    }
    return homologue->carbon;
}

/// A carbon number as it is, or as the name of an n-alkane is shortened: C7, n-C7.
double number_of_carbons(const TableReader &table) {
    std::string_view text = table.text("carbon");
    for (const std::string_view before : {"n-", "C", "c"}) {
        if (text.starts_with(before)) {
            text.remove_prefix(before.size());
        }
    }
    const bool is_short = text.size() < table.text("carbon").size() && !text.empty() &&
                          text.size() <= 3 &&
                          text.find_first_not_of("0123456789") == std::string_view::npos;
    return is_short ? std::stod(std::string(text)) : table.number("carbon", "a carbon number");
}

double carbon_of_row(const TableReader &table, std::optional<quantities::IndexScale> system_scale) {
    if (!table.has("carbon")) {
        return carbon_of_name(table, *system_scale);
    }
    const double carbon = number_of_carbons(table);
    if (carbon < 1.0 || carbon > kLongestChain || carbon != std::floor(carbon)) {
        throw InputError(table.where("carbon"), exact_text(carbon),
                         "a whole carbon number from 1 to 200");
    }
    if (system_scale && table.has("standard") && carbon_of_name(table, *system_scale) != carbon) {
        throw InputError(table.where("carbon"), exact_text(carbon),
                         "the carbon number of " + in_quotes(table.text("standard")));
    }
    return carbon;
}

bool is_usable(const quantities::Ladder &ladder, quantities::LadderGaps gaps) {
    try {
        quantities::check_ladder(ladder, gaps);
    } catch (const InputError &) {
        return false;
    }
    return true;
}

void check_at_row(const quantities::Ladder &ladder, quantities::LadderGaps gaps,
                  const TableReader &table) {
    try {
        quantities::check_ladder(ladder, gaps);
    } catch (const InputError &error) {
        const bool is_gap = is_usable(ladder, quantities::LadderGaps::interpolate);
        throw InputError(table.where(is_gap && table.has("carbon") ? "carbon" : "tR"),
                         error.found(), error.expected() + (is_gap ? " (--ladder-gaps)" : ""));
    }
}

} // namespace

quantities::Ladder read_ladder(std::istream &in, const std::string &file,
                               std::optional<quantities::IndexScale> system_scale,
                               quantities::LadderGaps gaps,
                               const std::vector<ColumnAlias> &aliases) {
    TableReader table(in, file, {{"carbon", false}, {"standard", false}, {"tR", false, "min"}},
                      aliases);
    if (!table.has("tR") || (!table.has("carbon") && !table.has("standard"))) {
        throw InputError({file, table.line(), ""},
                         "a header without " +
                             std::string(table.has("tR") ? "carbon and standard" : "tR"),
                         "the columns carbon,tR or standard,tR, named so (--map and --as hold for "
                         "the ladder, too)");
    }
    if (!system_scale && !table.has("carbon")) {
        throw InputError({file, table.line(), "standard"}, "names of a series of your own",
                         "a column carbon with the carbon numbers");
    }
    quantities::Ladder ladder{system_scale, {}};
    while (table.next()) { // a fault shows in the rows behind it, too: the first one is told
        const double carbon = carbon_of_row(table, system_scale);
        ladder.points.push_back({carbon, table.number("tR", "a retention time in min")});
        check_of_instrument(table, "tR", ladder.points.back().retention_time_min);
        if (ladder.points.size() > 1) {
            check_at_row(ladder, gaps, table); // as soon as it shows, to name the line
        }
    }
    if (ladder.points.size() < 2) {
        throw InputError({file, table.line(), ""},
                         fmt::format("a ladder of {} members", ladder.points.size()),
                         "two members or more");
    }
    return ladder;
}

} // namespace cospot
