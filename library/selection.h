#pragma once

#include "library/compounds.h"
#include "library/database.h"
#include "library/overview.h"
#include "library/systems.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace cospot::library {

/// Which part of a library is wanted; what is empty does not narrow it. Only values that hold
/// count.
struct Selection {
    std::optional<Technique> technique;
    std::string system;              ///< name, as `find_system` reads it
    std::string name_part;           ///< of a compound's name or synonym, case ignored
    std::optional<double> mass_low;  ///< monoisotopic, Da
    std::optional<double> mass_high; ///< monoisotopic, Da
    std::string date_from;           ///< of the run, ISO 8601; runs without a date are left out
    std::string date_to;
    std::optional<std::vector<CompoundId>> only; ///< of these compounds

    /// Whether only compounds with certain values are wanted.
    [[nodiscard]] bool narrows_values() const {
        return technique || !system.empty() || !date_from.empty() || !date_to.empty();
    }
};

/// A value with what `learn` needs to read it back.
struct ExportRecord {
    MeasurementRecord value;
    std::string smiles;
    std::string cas;
};

/// A part of a list.
struct Page {
    std::size_t skip = 0;           ///< so many at its beginning are left out
    std::optional<std::size_t> top; ///< at most so many follow

    [[nodiscard]] bool is_whole() const { return skip == 0 && !top; }
};

/// How many compounds `for_each_compound` visits where the page is the whole list.
[[nodiscard]] std::size_t count_compounds(Database &database, const Selection &selection);

/// Calls `visit` for each selected compound, in the order of names, with the number of its selected
/// values and of their systems.
void for_each_compound(Database &database, const Selection &selection,
                       const std::function<void(const Compound &, const Counts &)> &visit,
                       const Page &page = {});

/// Selected systems (by technique and name), in the order of names.
[[nodiscard]] std::vector<System> select_systems(Database &database, const Selection &selection);

/// Calls `visit` for each selected value, in the order in which the library learned them.
void for_each_value(Database &database, const Selection &selection,
                    const std::function<void(const ExportRecord &)> &visit);

} // namespace cospot::library
