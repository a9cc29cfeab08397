#include "resolve/library_series.h"

#include "evidence/index_law.h"
#include "library/compounds.h"
#include "library/descriptions.h"
#include "library/measurements.h"
#include "library/names.h"
#include "quantities/solvent_strength.h"
#include "shared/error.h"
#include "shared/solvent_names.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <map>
#include <set>

namespace cospot::resolve {

namespace {

/// A system with the fraction of the modifier in it.
struct Member {
    library::System system;
    double fraction = 0.0;
};

bool is_aqueous(const std::string &solvent) {
    const std::string text = lower_ascii(solvent);
    return text.find("water") != std::string::npos || text.find("buffer") != std::string::npos ||
           text.find("aqueous") != std::string::npos;
}

/// The programme as far as it tells isocratic systems apart.
std::string conditions_of(const library::System &system) {
    const std::string text = lower_ascii(trimmed(system.programme));
    return text == "isocratic" ? "" : text;
}

bool is_isocratic(const library::System &system) {
    return system.technique == Technique::hplc &&
           index_law_of(system).law == quantities::IndexLaw::logarithmic;
}

/// The system that the series is asked for by.
library::System system_asked(library::Database &database, const std::string &name) {
    const Where where{"command line, --system", 0, ""};
    library::System system = system_named(database, name, where);
    if (!is_isocratic(system) || system.stationary_phase.empty() ||
        library::eluent_of(database, system.id).size() != 2) {
        throw InputError(where, in_quotes(name),
                         "an isocratic hplc system with a stationary phase and a mobile phase of "
                         "two solvents");
    }
    return system;
}

std::string modifier_of(const std::vector<SolventPart> &eluent,
                        const std::optional<std::string> &named) {
    const std::string &first = eluent[0].solvent;
    const std::string &second = eluent[1].solvent;
    const std::string choice = fmt::format("{} or {}", in_quotes(first), in_quotes(second));
    if (named) {
        for (const SolventPart &part : eluent) {
            if (solvent_key(part.solvent) == solvent_key(*named)) {
                return part.solvent;
            }
        }
        throw InputError({"command line, --modifier", 0, ""}, in_quotes(*named), choice);
    }
    if (is_aqueous(first) != is_aqueous(second)) {
        return is_aqueous(first) ? second : first;
    }
    try {
        return quantities::solvent_polarity(first) > quantities::solvent_polarity(second) ? first
                                                                                          : second;
    } catch (const InputError &) {
        throw bad_usage("no --modifier", "--modifier " + choice + ": whose fraction is meant");
    }
}

/// The fraction of the modifier in a mixture of the two solvents; nothing for another mixture.
std::optional<double> fraction_in(const std::vector<SolventPart> &eluent,
                                  const LibrarySeries &series) {
    if (eluent.size() != 2) {
        return std::nullopt;
    }
    for (std::size_t i = 0; i < 2; ++i) {
        if (solvent_key(eluent[i].solvent) == solvent_key(series.modifier) &&
            solvent_key(eluent[1 - i].solvent) == solvent_key(series.other)) {
            return volume_fractions(eluent)[i];
        }
    }
    return std::nullopt;
}

std::vector<Member> members_of(library::Database &database, const library::System &asked,
                               const LibrarySeries &series) {
    std::vector<Member> members;
    for (const library::System &system : library::all_systems(database)) {
        const auto fraction = fraction_in(library::eluent_of(database, system.id), series);
        if (fraction && is_isocratic(system) &&
            equal_ignoring_case(system.stationary_phase, asked.stationary_phase) &&
            conditions_of(system) == conditions_of(asked)) {
            members.push_back({system, *fraction});
        }
    }
    return members;
}

using Readings = std::map<library::CompoundId, std::vector<RetentionPoint>>;

/// All readings of k; what is not retained (k 0) has no logarithm and is counted out.
Readings read_members(library::Database &database, const std::vector<Member> &members,
                      LibrarySeries &series) {
    Readings readings;
    std::size_t unretained = 0;
    for (const Member &member : members) {
        const auto values = library::values_on_system(database, member.system.id, Quantity::k);
        for (const library::HeldValue &held : values) {
            if (held.value > 0.0) {
                readings[held.compound].push_back({member.fraction, held.value});
            } else {
                ++unretained;
            }
        }
        if (!values.empty()) {
            series.systems.push_back(member.system.name);
        }
    }
    if (unretained > 0) {
        series.notes.push_back(
            fmt::format("{} values of k 0 were left out: they have no logarithm.", unretained));
    }
    return readings;
}

std::vector<MeasuredCompound> named_compounds(library::Database &database, const Readings &readings,
                                              const std::vector<std::string> &names) {
    std::set<library::CompoundId> taken;
    std::vector<MeasuredCompound> compounds;
    for (const std::string &name : names) {
        const Where where{"command line, --compounds", 0, ""};
        const library::Compound found = compound_in_use(database, name, where);
        const auto points = readings.find(found.id);
        if (points == readings.end() || fraction_span(points->second) < kLeastSpan) {
            throw InputError(where,
                             fmt::format("{} with k at {} fraction", in_quotes(name),
                                         points == readings.end() ? "no" : "one"),
                             "k at two fractions or more of these solvents");
        }
        if (taken.insert(found.id).second) {
            compounds.push_back({found.name, points->second, {}});
        }
    }
    return compounds;
}

std::vector<MeasuredCompound> all_compounds(library::Database &database, const Readings &readings,
                                            LibrarySeries &series) {
    std::vector<MeasuredCompound> compounds;
    std::size_t left_out = 0;
    for (const auto &[id, points] : readings) {
        if (fraction_span(points) < kLeastSpan) {
            ++left_out;
        } else if (const auto compound = library::find_compound(database, id)) {
            compounds.push_back({compound->name, points, {}});
        }
    }
    if (left_out > 0) {
        series.notes.push_back(
            fmt::format("{} compounds measured at one fraction only were left out.", left_out));
    }
    return compounds;
}

} // namespace

LibrarySeries library_series(library::Database &database, const std::string &system,
                             const std::optional<std::string> &modifier,
                             const std::vector<std::string> &names) {
    const library::System asked = system_asked(database, system);
    const auto eluent = library::eluent_of(database, asked.id);
    LibrarySeries series;
    series.stationary_phase = asked.stationary_phase;
    series.modifier = modifier_of(eluent, modifier);
    series.other = eluent[equal_ignoring_case(eluent[0].solvent, series.modifier) ? 1 : 0].solvent;
    const Readings readings = read_members(database, members_of(database, asked, series), series);
    series.compounds = names.empty() ? all_compounds(database, readings, series)
                                     : named_compounds(database, readings, names);
    if (series.compounds.empty()) {
        throw InputError({"command line, --system", 0, ""},
                         fmt::format("{}, with no compound whose k the library holds at two "
                                     "fractions of {} in {}",
                                     in_quotes(system), series.modifier, series.other),
                         "values of quantity k (not tR or RI) on two systems or more that differ "
                         "in the fraction only");
    }
    return series;
}

void add_log_p(library::Database &database, std::vector<MeasuredCompound> &compounds) {
    for (MeasuredCompound &compound : compounds) {
        const auto found = library::find_by_name(database, compound.name);
        if (found.size() == 1) {
            const auto description = library::description_of(database, found.front().id);
            if (description && description->formal_charge == 0) {
                compound.log_p = description->crippen_logp;
            }
        }
    }
}

} // namespace cospot::resolve
