#pragma once

#include "evidence/library_evidence.h"
#include "expectation/kept_features.h"
#include "expectation/system_family.h"
#include "library/database.h"
#include "library/systems.h"
#include "model/prediction/retention_table.h"
#include "model/prediction/structure_model.h"

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace cospot {

/// Values that a quantity can have, on the matcher's model scale.
[[nodiscard]] prediction::Range possible_range(Quantity quantity);

/// A family with the model fitted to it, if it was needed: it takes seconds.
class FittedFamily {
public:
    FittedFamily(library::Database &database, SystemFamily family)
        : database_(&database), family_(std::move(family)) {}

    [[nodiscard]] const SystemFamily &family() const { return family_; }
    /// Nothing where too few compounds were measured.
    const prediction::StructureModel *structure_model();

    [[nodiscard]] bool has_new() const { return new_.has_value(); }
    /// Keeps a fit that the library did not hold, in a transaction of the caller's.
    void store_new(library::Database &writer);

private:
    library::Database *database_;
    SystemFamily family_;
    bool was_tried_ = false;
    std::optional<prediction::StructureModel> model_;
    std::optional<prediction::StructureFit> new_;
};

/// What a library tells about the retention of compounds, each model made once however many
/// compounds are asked for: from what the library keeps of an earlier fit, or else fitted.
class RetentionModels {
public:
    explicit RetentionModels(library::Database &database)
        : database_(&database), features_(database) {}

    [[nodiscard]] library::Database &database() { return *database_; }
    [[nodiscard]] KeptFeatures &features() { return features_; }
    /// The systems with the quantities that the library holds there.
    std::vector<ModelledSystem> asked_on(const std::vector<library::System> &systems);
    /// What the library holds on the systems, and what these and others tell about compounds that
    /// were not measured on them: the same as `identify` judges by.
    const LibraryEvidence &known_on(const std::vector<ModelledSystem> &asked);
    FittedFamily &family_of(const library::System &system, Quantity quantity);

    /// Keeps in the library what was fitted anew, in a transaction of its own: for the end of a
    /// command that only reads and writes no report: the transaction in which it reads ends here.
    /// Where the library cannot be written, or somebody uses it just now, it does without.
    void keep();

private:
    library::Database *database_;
    KeptFeatures features_;
    std::map<std::vector<std::pair<library::SystemId, Quantity>>, LibraryEvidence>
        known_; ///< by systems
    std::vector<std::unique_ptr<FittedFamily>> families_;
};

} // namespace cospot
