#include "options/selection_options.h"

#include "shared/date.h"
#include "shared/number.h"
#include "shared/text.h"
#include "structures/structure_service.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <set>

namespace cospot {

namespace {

namespace po = boost::program_options;

std::string date_option(const CommandOptions &options, const char *name) {
    return options.has(name) ? parse_date(options.get<std::string>(name), at_option(name)) : "";
}

void read_mass(const std::string &text, library::Selection &selection) {
    const Where where = at_option("mass");
    const std::string expected = "LOW:HIGH in Da, e.g. 150:200, either end may be left out";
    const std::size_t colon = text.find(':');
    if (colon == std::string::npos) {
        throw InputError(where, in_quotes(text), expected);
    }
    const std::string low = text.substr(0, colon);
    const std::string high = text.substr(colon + 1);
    if (!low.empty()) {
        selection.mass_low = parse_number(low, where, expected);
    }
    if (!high.empty()) {
        selection.mass_high = parse_number(high, where, expected);
    }
    if (selection.mass_low && selection.mass_high && *selection.mass_low > *selection.mass_high) {
        throw InputError(where, in_quotes(text), "the lower mass before the colon");
    }
}

} // namespace

void add_selection_options(CommandOptions &options) {
    options.add()("technique", po::value<std::string>(), "tlc, paper, column, hplc or gc")(
        "system", po::value<std::string>(), "name of a system")(
        "name", po::value<std::string>(), "part of a compound's name or synonym")(
        "mass", po::value<std::string>(), "LOW:HIGH, monoisotopic mass in Da")(
        "from", po::value<std::string>(), "runs from this date on")("to", po::value<std::string>(),
                                                                    "runs up to this date")(
        "substructure", po::value<std::string>(), "SMARTS that the structure must hold");
}

library::Selection selection_of(const CommandOptions &options) {
    library::Selection selection;
    if (options.has("technique")) {
        const auto &text = options.get<std::string>("technique");
        selection.technique = technique_from_text(text);
        if (!selection.technique) {
            throw bad_option("technique", in_quotes(text), "tlc, paper, column, hplc or gc");
        }
    }
    if (options.has("system")) {
        selection.system = options.get<std::string>("system");
    }
    if (options.has("name")) {
        selection.name_part = options.get<std::string>("name");
    }
    if (options.has("mass")) {
        read_mass(options.get<std::string>("mass"), selection);
    }
    selection.date_from = date_option(options, "from");
    selection.date_to = date_option(options, "to");
    return selection;
}

std::vector<library::CompoundId> with_substructure(library::Database &database,
                                                   const library::Selection &selection,
                                                   const std::string &smarts,
                                                   std::ostream &messages) {
    std::vector<library::CompoundId> ids;
    std::vector<std::string> smiles;
    library::for_each_compound(database, selection,
                               [&](const library::Compound &compound, const library::Counts &) {
                                   ids.push_back(compound.id);
                                   smiles.push_back(compound.smiles);
                               });
    std::vector<bool> matches;
    std::vector<std::size_t> undecided;
    try {
        matches = structure_service().substructure_matches(smarts, smiles, undecided);
    } catch (const InputError &error) {
        throw bad_option("substructure", error.found(), error.expected());
    }
    if (!undecided.empty()) {
        messages << fmt::format("cospot: {} left out, since the search took more than {:g} s for "
                                "each; the first: {}\n",
                                counted(undecided.size(), "compound"),
                                descriptors::kSearchPatience_s, smiles[undecided.front()]);
    }
    std::vector<library::CompoundId> matching;
    for (std::size_t i = 0; i < ids.size(); ++i) {
        if (matches[i]) {
            matching.push_back(ids[i]);
        }
    }
    std::sort(matching.begin(), matching.end());
    return matching;
}

std::function<bool(const library::MeasurementRecord &)>
value_filter(const CommandOptions &options, library::Database &database, std::ostream &messages) {
    const library::Selection selection = selection_of(options);
    std::set<std::string> systems;
    for (const library::System &system : library::select_systems(database, selection)) {
        systems.insert(system.name);
    }
    const bool narrows_compounds = !selection.name_part.empty() || selection.mass_low ||
                                   selection.mass_high || options.has("substructure");
    std::set<std::string> compounds;
    if (narrows_compounds) {
        const auto ids = options.has("substructure")
                             ? with_substructure(database, selection,
                                                 options.get<std::string>("substructure"), messages)
                             : std::vector<library::CompoundId>{};
        library::for_each_compound(
            database, selection, [&](const library::Compound &compound, const library::Counts &) {
                if (!options.has("substructure") ||
                    std::binary_search(ids.begin(), ids.end(), compound.id)) {
                    compounds.insert(compound.name);
                }
            });
    }
    return [=](const library::MeasurementRecord &record) {
        const bool in_time =
            (selection.date_from.empty() || record.date >= selection.date_from) &&
            (selection.date_to.empty() ||
             (!record.date.empty() &&
              record.date.substr(0, selection.date_to.size()) <= selection.date_to));
        return in_time && systems.contains(record.system) &&
               (!narrows_compounds || compounds.contains(record.compound));
    };
}

} // namespace cospot
