#include "readers/ladder_table.h"

#include "readers/instrument_number.h"
#include "readers/ladder_member.h"
#include "shared/error.h"
#include "shared/number.h"
#include "shared/table.h"
#include "shared/text.h"
#include "shared/usual_headers.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>

namespace cospot {

namespace {

constexpr double kLongestChain = 200.0;

/// Indices of different scales are never mixed.
void check_scale(const LadderMember &member, quantities::IndexScale system_scale,
                 const TableReader &table, const char *column) {
    if (member.scale && *member.scale != system_scale) {
        throw InputError(table.where(column),
                         fmt::format("{}, of the {} scale", in_quotes(table.text(column)),
                                     quantities::to_text(*member.scale)),
                         fmt::format("a homologue of the system's {} scale: indices of different "
                                     "scales are never mixed",
                                     quantities::to_text(system_scale)));
    }
}

double carbon_of_name(const TableReader &table, quantities::IndexScale system_scale) {
    const std::string_view name = table.required_text("standard", "the name of a ladder member");
    auto member = ladder_member(name);
    if (!member) {
        throw InputError(table.where("standard"), in_quotes(name),
                         fmt::format("a homologue of the {} scale, or a column carbon with its "
                                     "carbon number",
                                     quantities::to_text(system_scale)));
    }
    if (!member->scale) {
        member->scale = quantities::IndexScale::n_alkane; // a name such as C10 is short for it
    }
    check_scale(*member, system_scale, table, "standard");
    return member->carbon;
}

/// A carbon number as it is, behind a C, or of the homologue that is named. A laboratory's own
/// series has no names.
double number_of_carbons(const TableReader &table,
                         std::optional<quantities::IndexScale> system_scale) {
    const auto member = ladder_member(table.text("carbon"));
    if (member && (system_scale || !member->scale)) {
        if (system_scale) {
            check_scale(*member, *system_scale, table, "carbon");
        }
        return member->carbon;
    }
    const double carbon =
        table.number("carbon", "a carbon number, as 9, C9 or C9 nonane, or a homologue's name");
    table.check_row(); // what is no number is told as it stands
    return carbon;
}

double carbon_of_row(const TableReader &table, std::optional<quantities::IndexScale> system_scale) {
    if (!table.has("carbon")) {
        return carbon_of_name(table, *system_scale);
    }
    const double carbon = number_of_carbons(table, system_scale);
    if (carbon < 1.0 || carbon > kLongestChain || carbon != std::floor(carbon)) {
        throw InputError(table.where("carbon"), in_quotes(table.text("carbon")),
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

InputError no_ladder_columns(const TableReader &table) {
    std::vector<std::string> missing;
    if (!table.has("carbon") && !table.has("standard")) {
        missing.emplace_back(proposed_maps(table.header(), {"carbon"}).empty() ? "standard"
                                                                               : "carbon");
    }
    if (!table.has("tR")) {
        missing.emplace_back("tR");
    }
    const std::string maps = proposed_maps(table.header(), missing, "--ladder-map");
    std::vector<std::string> quoted;
    for (const std::string &name : table.header()) {
        quoted.push_back(in_quotes(trimmed(name), 30));
    }
    return {{table.file(), table.line(), ""},
            fmt::format("a header without {}: {}", table.has("tR") ? "carbon and standard" : "tR",
                        fmt::join(quoted, ", ")),
            "the columns carbon,tR or standard,tR, named so, or --ladder-map COLUMN=HEADER (--map "
            "and --as hold for the ladder, too)" +
                (maps.empty() ? "" : "; perhaps " + maps)};
}

} // namespace

quantities::Ladder read_ladder(std::istream &in, const std::string &file,
                               std::optional<quantities::IndexScale> system_scale,
                               quantities::LadderGaps gaps,
                               const std::vector<ColumnAlias> &aliases) {
    TableReader table(in, file, {{"carbon", false}, {"standard", false}, {"tR", false, "min"}},
                      aliases, {{"carbon", "tR"}, {"standard", "tR"}});
    if (!table.has("tR") || (!table.has("carbon") && !table.has("standard"))) {
        throw no_ladder_columns(table);
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
        table.check_row(); // before its numbers are compared with others
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
