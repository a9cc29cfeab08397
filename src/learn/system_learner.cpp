#include "learn/system_learner.h"

#include "library/systems.h"
#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <optional>
#include <string>

namespace cospot {

namespace {

/// Takes over `stated` where `held` is unstated; throws where both are stated and differ.
void complete(std::string &held, const std::string &stated, const char *column, const Where &row) {
    if (held.empty()) {
        held = stated;
    } else if (!stated.empty() && stated != held) {
        throw InputError({row.file, row.line, column}, in_quotes(stated),
                         in_quotes(held) +
                             " as the library says: other conditions are another system, "
                             "under another name");
    }
}

void complete(std::optional<double> &held, std::optional<double> stated, const char *column,
              const Where &row) {
    if (!held) {
        held = stated;
    } else if (stated && *stated != *held) {
        throw InputError({row.file, row.line, column}, fmt::format("{}", *stated),
                         fmt::format("{} as the library says", *held));
    }
}

/// Returns whether the library said less about the system than the row does.
bool complete_from_row(library::System &held, const SystemRow &row) {
    const library::System before = held;
    const library::System &stated = row.system;
    if (stated.technique != held.technique) {
        throw InputError({row.where.file, row.where.line, "technique"},
                         in_quotes(to_text(stated.technique)),
                         in_quotes(to_text(held.technique)) + " as the library says");
    }
    complete(held.stationary_phase, stated.stationary_phase, "stationary_phase", row.where);
    complete(held.mobile_phase, stated.mobile_phase, "mobile_phase", row.where);
    complete(held.programme, stated.programme, "programme", row.where);
    complete(held.scale, stated.scale, "scale", row.where);
    complete(held.reference, stated.reference, "reference", row.where);
    complete(held.column_length_m, stated.column_length_m, "column_length_m", row.where);
    complete(held.column_diameter_mm, stated.column_diameter_mm, "column_diameter_mm", row.where);
    complete(held.film_um, stated.film_um, "film_um", row.where);
    complete(held.particle_um, stated.particle_um, "particle_um", row.where);
    if (held.note.empty()) {
        held.note = stated.note;
    }
    const auto texts = [](const library::System &s) {
        return s.stationary_phase.size() + s.mobile_phase.size() + s.programme.size() +
               s.scale.size() + s.reference.size() + s.note.size();
    };
    const auto numbers = [](const library::System &s) {
        return int{s.column_length_m.has_value()} + int{s.column_diameter_mm.has_value()} +
               int{s.film_um.has_value()} + int{s.particle_um.has_value()};
    };
    return texts(held) != texts(before) || numbers(held) != numbers(before);
}

/// The same; a contradiction says what the library calls the system where the row calls it
/// otherwise.
bool complete_known(library::System &held, const SystemRow &row) {
    try {
        return complete_from_row(held, row);
    } catch (const InputError &error) {
        if (held.name == row.system.name) {
            throw;
        }
        throw InputError(error.where(),
                         fmt::format("{} of system {}, which the library calls {}", error.found(),
                                     in_quotes(row.system.name), in_quotes(held.name)),
                         error.expected());
    }
}

/// On a plate the eluent decides; other mobile phases have buffers and gases, of which nothing
/// follows.
void remark_unknown_solvents(const SystemRow &row, LearnSummary &summary) {
    if (!can_show(row.system.technique, Quantity::Rf)) {
        return;
    }
    for (const std::string &solvent : unknown_solvents(row.eluent)) {
        summary.remarks.push_back(fmt::format(
            "system {}: {} in its mobile phase is not understood as a solvent, and is compared by "
            "this name alone (PE, EE, EtOAc and the like are; a mixture as in PE/EE 4:1)",
            row.system.name, in_quotes(solvent)));
    }
}

} // namespace

void learn_systems(library::Database &database, const std::vector<SystemRow> &rows,
                   library::ChangeId change, LearnSummary &summary) {
    for (const SystemRow &row : rows) {
        auto held = library::find_system(database, row.system.name);
        remark_unknown_solvents(row, summary);
        if (!held) {
            library::add_system(database, row.system, row.eluent, change);
            ++summary.systems_added;
            continue;
        }
        ++summary.systems_known;
        if (complete_known(*held, row)) {
            const std::vector<SolventPart> eluent =
                held->mobile_phase.empty() ? std::vector<SolventPart>{}
                                           : parse_eluent(held->mobile_phase, row.where);
            library::complete_system(database, *held, eluent);
            summary.remarks.push_back("system " + held->name + ": unstated conditions filled in");
        }
    }
}

} // namespace cospot
