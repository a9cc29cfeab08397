#pragma once

#include "library/database.h"
#include "model/matcher/system_model.h"
#include "shared/quantity.h"

#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

/// One quantity on one system of the library, with what was measured of it. Compounds are numbered
/// by their ids in the library.
struct MeasuredSystem {
    std::string name;
    Technique technique = Technique::tlc;
    Quantity quantity = Quantity::Rf;
    matcher::SystemModel model;
};

/// The systems of a library that hold certain compounds. Each system is read and fitted when it is
/// first asked for, and once only.
class MeasuredSystems {
public:
    explicit MeasuredSystems(library::Database &database) : database_(&database) {}

    /// Those that hold values of both compounds, but for those named in `without`; in the order of
    /// names.
    [[nodiscard]] std::vector<const MeasuredSystem *>
    holding_both(library::CompoundId first, library::CompoundId second,
                 const std::set<std::string> &without);

    /// Those that hold at least two of the compounds (empty ones do not count),
    /// but for those named in `without`; in the order of names.
    [[nodiscard]] std::vector<const MeasuredSystem *>
    holding_several(std::span<const std::optional<library::CompoundId>> compounds,
                    const std::set<std::string> &without);

    /// One quantity on one system, which the library must hold.
    [[nodiscard]] const MeasuredSystem &named(const std::string &system, Quantity quantity) {
        return fitted({system, quantity});
    }

private:
    using Key = std::pair<std::string, Quantity>; ///< name of the system

    const std::set<Key> &systems_of(library::CompoundId compound);
    const MeasuredSystem &fitted(const Key &key);

    library::Database *database_;
    std::map<library::CompoundId, std::set<Key>> of_compound_;
    std::map<Key, MeasuredSystem> fitted_;
};

} // namespace cospot
