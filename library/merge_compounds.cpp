#include "library/merge_compounds.h"

#include "library/compounds.h"
#include "library/damage.h"
#include "library/descriptions.h"
#include "library/names.h"
#include "library/rename.h"
#include "library/retire.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <vector>

namespace cospot::library {

namespace {

/// Compounds besides `compound` that bear the name.
std::vector<Compound> namesakes(Database &database, const std::string &name, CompoundId compound) {
    std::vector<Compound> found = find_by_name(database, name);
    std::erase_if(found, [&](const Compound &other) { return other.id == compound; });
    return found;
}

void report_namesakes(MergeContext &merge, const std::string &name, CompoundId compound,
                      const Compound &there) {
    for (const Compound &other : namesakes(merge.here, name, compound)) {
        merge.summary.findings.push_back({"name", name, other.inchikey, there.inchikey,
                                          "one name for two structures; both are kept"});
    }
}

/// Adds the names that our compound does not bear yet.
void merge_names(MergeContext &merge, CompoundId here, const Compound &there) {
    std::vector<std::string> names = synonyms_of(merge.there, there.id);
    names.insert(names.begin(), there.name);
    for (const std::string &name : names) {
        if (add_synonym(merge.here, here, name, merge.change)) {
            ++merge.summary.names_added;
            report_namesakes(merge, name, here, there);
        }
    }
}

void merge_registry_number(MergeContext &merge, const Compound &here, const Compound &there) {
    if (there.cas.empty() || there.cas == here.cas) {
        return;
    }
    if (!here.cas.empty()) {
        merge.summary.findings.push_back({"registry number", here.name, here.cas, there.cas,
                                          "the number that this library holds stays"});
        return;
    }
    for (const Compound &other : namesakes(merge.here, there.cas, here.id)) {
        merge.summary.findings.push_back({"registry number", there.cas, other.inchikey,
                                          there.inchikey,
                                          "one number for two structures; both are kept"});
    }
    set_cas(merge.here, here.id, there.cas);
}

/// A new compound is retired as it is in the other library.
void merge_retirement(MergeContext &merge, CompoundId here, const Compound &there) {
    Statement &query = merge.there.cached("SELECT retired_change_id FROM compound WHERE id = ?1");
    const ChangeId change = query.bind(1, there.id).step() ? query.id<ChangeId>(0) : ChangeId{};
    query.reset();
    merge.here.cached("UPDATE compound SET retired_change_id = ?2 WHERE id = ?1")
        .bind(1, here)
        .bind(2, copy_change(merge, change))
        .run();
}

void report_retirement(MergeContext &merge, const Compound &here, const Compound &there) {
    const auto state = [](Database &database, const Compound &compound) {
        const auto retirement = retirement_of_compound(database, compound.id);
        return retirement ? "retired: " + retirement->detail : "in use";
    };
    if (here.retired != there.retired) {
        merge.summary.findings.push_back(
            {"state", "compound " + here.name, state(merge.here, here), state(merge.there, there),
             here.retired ? "stays retired here, values that come in too"
                          : "stays in use here; values keep the state that they have there"});
    }
}

/// One of the two libraries corrected a structure that the other still has.
void report_corrections(MergeContext &merge, const Compound &there) {
    if (const auto here = formerly_of(merge.here, there.inchikey)) {
        merge.summary.findings.push_back(
            {"structure", here->name, exact_words(*here), exact_words(there),
             "corrected here; the structure of the other library is kept as another compound"});
    }
    for (const FormerStructure &former : former_structures_of(merge.there, there.id)) {
        if (const auto here = find_by_inchikey(merge.here, former.inchikey)) {
            merge.summary.findings.push_back(
                {"structure", here->name, exact_words(*here), exact_words(there),
                 "corrected in the other library; both are kept (cospot rename --smiles before the "
                 "merge makes them one)"});
        }
    }
}

CompoundId add_new(MergeContext &merge, const Compound &there) {
    report_corrections(merge, there);
    Compound added = there;
    added.cas.clear(); // set below, where it is compared
    added.id = add_compound(merge.here, added, merge.change);
    if (const auto description = description_of(merge.there, there.id)) {
        add_description(merge.here, added.id, *description);
    }
    ++merge.summary.compounds_added;
    if (there.retired) {
        merge_retirement(merge, added.id, there);
    }
    report_namesakes(merge, there.name, added.id, there);
    merge_registry_number(merge, added, there);
    return added.id;
}

CompoundId merge_compound(MergeContext &merge, const Compound &there) {
    const std::optional<Compound> held = find_by_inchikey(merge.here, there.inchikey);
    CompoundId id{};
    if (held) {
        id = held->id;
        ++merge.summary.compounds_known;
        report_retirement(merge, *held, there);
        merge_registry_number(merge, *held, there);
        if (held->tautomer.empty() && !there.tautomer.empty()) {
            set_tautomer(merge.here, id, there.tautomer);
        }
    } else {
        id = add_new(merge, there);
    }
    merge_names(merge, id, there);
    return id;
}

/// All compounds of a library.
std::vector<Compound> compounds_of(Database &database) {
    std::vector<Compound> all;
    Statement compounds = database.prepare("SELECT id FROM compound ORDER BY id");
    while (compounds.step()) {
        all.push_back(sound(find_compound(database, compounds.id<CompoundId>(0)), database));
    }
    return all;
}

/// Those that this library does not hold.
std::vector<Compound> new_among(const std::vector<Compound> &there, Database &here) {
    std::vector<Compound> found;
    std::copy_if(there.begin(), there.end(), std::back_inserter(found),
                 [&](const Compound &one) { return !find_by_inchikey(here, one.inchikey); });
    return found;
}

} // namespace

IdMap<CompoundId> merge_compounds(MergeContext &merge, const MergeOptions &options) {
    const std::vector<Compound> all = compounds_of(merge.there);
    if (options.check_structures) {
        options.check_structures(new_among(all, merge.here));
    }
    IdMap<CompoundId> ids;
    for (const Compound &there : all) {
        ids.emplace(there.id, merge_compound(merge, there));
    }
    return ids;
}

} // namespace cospot::library
