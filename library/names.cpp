#include "library/names.h"

#include "library/near_names.h"
#include "library/retire.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace cospot {

namespace {

[[noreturn]] void refuse_namesakes(const std::vector<library::Compound> &compounds,
                                   const std::string &name, const Where &where) {
    std::string all;
    for (const library::Compound &compound : compounds) {
        all += (all.empty() ? "" : " and ") + exact_words(compound);
    }
    throw InputError(
        where,
        fmt::format("{}, a name of {} structures: {}", in_quotes(name), compounds.size(), all),
        "one compound, by its InChIKey");
}

} // namespace

bool is_same_compound(library::Database &database, const std::string &a, const std::string &b) {
    if (equal_ignoring_case(a, b)) {
        return true;
    }
    const auto of_b = library::find_by_name(database, b);
    for (const library::Compound &one : library::find_by_name(database, a)) {
        if (std::any_of(of_b.begin(), of_b.end(),
                        [&](const library::Compound &other) { return other.id == one.id; })) {
            return true;
        }
    }
    return false;
}

std::string exact_words(const library::Compound &compound) {
    return fmt::format("{} ({}, {})", in_quotes(compound.name), compound.smiles, compound.inchikey);
}

std::optional<library::Compound> compound_if_named(library::Database &database,
                                                   const std::string &name, const Where &where) {
    auto compounds = library::find_by_name(database, name);
    if (compounds.empty()) {
        return std::nullopt;
    }
    const auto exact = std::find_if(compounds.begin(), compounds.end(),
                                    [&](const auto &one) { return one.inchikey == name; });
    if (exact == compounds.end() && compounds.size() > 1) {
        refuse_namesakes(compounds, name, where);
    }
    return exact == compounds.end() ? compounds.front() : *exact;
}

library::Compound compound_named(library::Database &database, const std::string &name,
                                 const Where &where) {
    if (auto compound = compound_if_named(database, name, where)) {
        return std::move(*compound);
    }
    throw InputError(where, in_quotes(name),
                     "a compound of the library (cospot list); if it is missing, measure its "
                     "standard and `cospot learn` it first" +
                         did_you_mean(database, name, NameOf::compound));
}

library::Compound compound_in_use(library::Database &database, const std::string &name,
                                  const Where &where) {
    library::Compound compound = compound_named(database, name, where);
    check_in_use(database, compound, where);
    return compound;
}

void check_in_use(library::Database &database, const library::Compound &compound,
                  const Where &where) {
    if (const auto retired = library::retirement_of_compound(database, compound.id)) {
        throw InputError(where,
                         fmt::format("{}, retired at {}, {}: {}", in_quotes(compound.name),
                                     retired->at_utc, retired->who, retired->detail),
                         "a compound in use (cospot retire --undo --compound takes it back)");
    }
}

library::System system_named(library::Database &database, const std::string &name,
                             const Where &where) {
    if (auto system = library::find_system(database, name)) {
        return std::move(*system);
    }
    throw InputError(where, in_quotes(name),
                     "a system that the library holds (cospot list systems)" +
                         did_you_mean(database, name, NameOf::system));
}

} // namespace cospot
