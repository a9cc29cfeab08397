#include "library/merge_systems.h"

#include "library/compounds.h"
#include "library/retire.h"
#include "library/systems.h"
#include "shared/number.h"
#include "shared/solvent_names.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace cospot::library {

namespace {

/// What two descriptions of a system say differently; both empty where they agree.
struct Contradiction {
    std::string here;
    std::string there;

    [[nodiscard]] bool exists() const { return !here.empty(); }
    void add(const char *what, std::string_view ours, std::string_view theirs) {
        here += fmt::format("{}{} {}", here.empty() ? "" : ", ", what, in_quotes(ours));
        there += fmt::format("{}{} {}", there.empty() ? "" : ", ", what, in_quotes(theirs));
    }
};

void compare(Contradiction &found, const char *what, const std::string &here,
             const std::string &there) {
    if (!here.empty() && !there.empty() && !equal_ignoring_case(here, there)) {
        found.add(what, here, there);
    }
}

void compare(Contradiction &found, const char *what, const std::optional<double> &here,
             const std::optional<double> &there) {
    if (here && there && *here != *there) {
        found.add(what, exact_text(*here), exact_text(*there));
    }
}

/// The same solvents in the same shares, in whatever order and parts they are written.
bool is_same_eluent(std::vector<SolventPart> here, std::vector<SolventPart> there) {
    if (here.empty() || here.size() != there.size()) {
        return false;
    }
    const auto normalise = [](std::vector<SolventPart> &eluent) {
        const std::vector<double> fractions = volume_fractions(eluent);
        for (std::size_t i = 0; i < eluent.size(); ++i) {
            eluent[i] = {solvent_key(eluent[i].solvent), fractions[i]};
        }
        std::sort(eluent.begin(), eluent.end(),
                  [](const SolventPart &a, const SolventPart &b) { return a.solvent < b.solvent; });
    };
    normalise(here);
    normalise(there);
    return std::equal(here.begin(), here.end(), there.begin(),
                      [](const SolventPart &a, const SolventPart &b) {
                          return a.solvent == b.solvent && std::abs(a.parts - b.parts) < 1e-9;
                      });
}

/// Whether two names stand for one compound, each in its own library.
bool is_same_compound(MergeContext &merge, const std::string &here, const std::string &there) {
    const auto ours = find_by_name(merge.here, here);
    const auto theirs = find_by_name(merge.there, there);
    return ours.size() == 1 && theirs.size() == 1 &&
           ours.front().inchikey == theirs.front().inchikey;
}

Contradiction contradiction_of(MergeContext &merge, const System &here, const System &there) {
    Contradiction found;
    if (here.technique != there.technique) {
        found.add("technique", to_text(here.technique), to_text(there.technique));
    }
    compare(found, "stationary phase", here.stationary_phase, there.stationary_phase);
    if (!is_same_eluent(eluent_of(merge.here, here.id), eluent_of(merge.there, there.id))) {
        compare(found, "mobile phase", here.mobile_phase, there.mobile_phase);
    }
    compare(found, "programme", here.programme, there.programme);
    compare(found, "index scale", here.scale, there.scale);
    if (!is_same_compound(merge, here.reference, there.reference)) {
        compare(found, "reference", here.reference, there.reference);
    }
    compare(found, "column length/m", here.column_length_m, there.column_length_m);
    compare(found, "diameter/mm", here.column_diameter_mm, there.column_diameter_mm);
    compare(found, "film/um", here.film_um, there.film_um);
    compare(found, "particle/um", here.particle_um, there.particle_um);
    return found;
}

template <typename T> bool fill(T &here, const T &there) {
    const bool is_new = here == T{} && there != T{};
    if (is_new) {
        here = there;
    }
    return is_new;
}

/// Fills in what our description leaves unstated.
void complete(MergeContext &merge, System here, const System &there) {
    std::vector<SolventPart> eluent = eluent_of(merge.here, here.id);
    bool is_fuller = fill(here.stationary_phase, there.stationary_phase);
    if (fill(here.mobile_phase, there.mobile_phase)) {
        eluent = eluent_of(merge.there, there.id);
        is_fuller = true;
    }
    is_fuller = fill(here.programme, there.programme) || is_fuller;
    is_fuller = fill(here.scale, there.scale) || is_fuller;
    is_fuller = fill(here.reference, there.reference) || is_fuller;
    is_fuller = fill(here.column_length_m, there.column_length_m) || is_fuller;
    is_fuller = fill(here.column_diameter_mm, there.column_diameter_mm) || is_fuller;
    is_fuller = fill(here.film_um, there.film_um) || is_fuller;
    is_fuller = fill(here.particle_um, there.particle_um) || is_fuller;
    is_fuller = fill(here.note, there.note) || is_fuller;
    if (is_fuller) {
        complete_system(merge.here, here, eluent);
        merge.summary.remarks.push_back("system " + here.name + ": unstated conditions filled in");
    }
}

SystemId add_new(MergeContext &merge, const System &there, const std::string &name) {
    System added = there;
    added.name = name;
    const SystemId id =
        add_system(merge.here, added, eluent_of(merge.there, there.id), merge.change);
    ++merge.summary.systems_added;
    if (there.retired) {
        Statement &query = merge.there.cached("SELECT retired_change_id FROM system WHERE id = ?1");
        const ChangeId change = query.bind(1, there.id).step() ? query.id<ChangeId>(0) : ChangeId{};
        query.reset();
        merge.here.cached("UPDATE system SET retired_change_id = ?2 WHERE id = ?1")
            .bind(1, id)
            .bind(2, copy_change(merge, change))
            .run();
    }
    return id;
}

void report_retirement(MergeContext &merge, const System &here, const System &there) {
    const auto state = [](Database &database, const System &system) {
        const auto retirement = retirement_of_system(database, system.id);
        return retirement ? "retired: " + retirement->detail : "in use";
    };
    if (here.retired != there.retired) {
        merge.summary.findings.push_back(
            {"state", "system " + here.name, state(merge.here, here), state(merge.there, there),
             here.retired ? "stays retired here, values that come in too"
                          : "stays in use here; values keep the state that they have there"});
    }
}

/// Keeps the other library's names of a system where they are not known here.
void merge_names(MergeContext &merge, SystemId here, const System &there) {
    std::vector<std::string> names = former_names_of(merge.there, there.id);
    names.push_back(there.name);
    for (const std::string &name : names) {
        if (!find_system(merge.here, name)) {
            keep_former_name(merge.here, here, name, merge.change);
        }
    }
}

SystemId merge_known(MergeContext &merge, const System &here, const System &there) {
    ++merge.summary.systems_known;
    merge_names(merge, here.id, there);
    complete(merge, here, there);
    report_retirement(merge, here, there);
    return here.id;
}

/// Stores a system that contradicts ours as "NAME (from OTHER)", or finds it under that name.
SystemId merge_renamed(MergeContext &merge, const System &there, const Contradiction &found) {
    std::string name = fmt::format("{} (from {})", there.name, merge.other);
    auto held = find_system(merge.here, name);
    for (int i = 2; held && contradiction_of(merge, *held, there).exists(); ++i) {
        name = fmt::format("{} (from {}, {})", there.name, merge.other, i);
        held = find_system(merge.here, name);
    }
    if (held) {
        return merge_known(merge, *held, there);
    }
    ++merge.summary.systems_renamed;
    merge.summary.findings.push_back(
        {"system", there.name, found.here, found.there, "stored as " + in_quotes(name)});
    return add_new(merge, there, name);
}

/// Our system of one of the names that the other library has for it, the present one first.
std::optional<System> find_by_any_name(MergeContext &merge, const System &there) {
    auto held = find_system(merge.here, there.name);
    for (const std::string &name : former_names_of(merge.there, there.id)) {
        held = held ? held : find_system(merge.here, name);
    }
    return held;
}

std::optional<SystemId> merge_system(MergeContext &merge, const System &there,
                                     const MergeOptions &options) {
    const auto held = find_by_any_name(merge, there);
    if (!held) {
        const SystemId id = add_new(merge, there, there.name);
        merge_names(merge, id, there);
        return id;
    }
    const Contradiction found = contradiction_of(merge, *held, there);
    if (!found.exists()) {
        return merge_known(merge, *held, there);
    }
    if (options.rename_conflicts) {
        return merge_renamed(merge, there, found);
    }
    ++merge.summary.systems_refused;
    merge.summary.findings.push_back(
        {"system", there.name, found.here, found.there, "its values were refused"});
    return std::nullopt;
}

} // namespace

IdMap<SystemId> merge_systems(MergeContext &merge, const MergeOptions &options) {
    IdMap<SystemId> ids;
    for (const System &there : all_systems(merge.there)) {
        if (const auto here = merge_system(merge, there, options)) {
            ids.emplace(there.id, *here);
        }
    }
    return ids;
}

} // namespace cospot::library
