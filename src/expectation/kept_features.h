#pragma once

#include "expectation/compound_features.h"
#include "library/database.h"
#include "model/prediction/compound_space.h"

#include <map>
#include <string>
#include <vector>

namespace cospot {

/// What the structures of a library say about themselves, for retention from structure. The
/// structure library is asked once; the answer is kept with the compound.
class KeptFeatures {
public:
    explicit KeptFeatures(library::Database &database) : database_(&database) {}

    /// Of these compounds of the library, in their order; from the library as far as it keeps them.
    /// Loads RDKit. Throws as `features_of` does.
    [[nodiscard]] std::vector<prediction::CompoundFeatures>
    of(const std::vector<library::CompoundId> &compounds);

    [[nodiscard]] bool has_new() const { return !new_.empty(); }
    /// Keeps what the library did not, in a transaction of the caller's.
    void store_new(library::Database &writer);

private:
    void read_or_compute(const std::vector<library::CompoundId> &compounds);

    library::Database *database_;
    std::map<library::CompoundId, prediction::CompoundFeatures> known_;
    std::map<library::CompoundId, std::string>
        new_; ///< SMILES of the compounds whose features are new
};

} // namespace cospot
