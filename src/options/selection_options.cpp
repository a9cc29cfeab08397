#include "options/selection_options.h"

#include "shared/date.h"
#include "shared/number.h"
#include "shared/text.h"
#include "structures/structure_service.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <string>

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

library::Selection narrowed_selection(const CommandOptions &options, library::Database &database,
                                      std::ostream &messages) {
    library::Selection selection = selection_of(options);
    if (const auto smarts = options.text("substructure")) {
        selection.only = with_substructure(database, selection, *smarts, messages);
    }
    return selection;
}

std::optional<std::size_t> count_option(const CommandOptions &options, const char *name,
                                        int least) {
    if (!options.has(name)) {
        return std::nullopt;
    }
    const int count = options.get<int>(name);
    if (count < least) {
        throw bad_option(name, std::to_string(count), fmt::format("{} or more", least));
    }
    return static_cast<std::size_t>(count);
}

} // namespace cospot
