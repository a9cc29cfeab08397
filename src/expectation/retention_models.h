#pragma once

#include "expectation/kept_features.h"
#include "expectation/kept_prediction.h"
#include "expectation/system_family.h"
#include "library/database.h"
#include "library/systems.h"
#include "matcher/system_model.h"
#include "prediction/composition_curve.h"
#include "prediction/neighbour_regression.h"
#include "prediction/structure_model.h"

#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace cospot {

/// Values that a quantity can have, on the matcher's model scale.
[[nodiscard]] prediction::Range possible_range(Quantity quantity);

/// A family with the models fitted to it as far as they were needed: they take seconds.
class FittedFamily {
public:
    FittedFamily(library::Database &database, SystemFamily family)
        : database_(&database), family_(std::move(family)) {}

    [[nodiscard]] const SystemFamily &family() const { return family_; }

    /// Position of a compound in the family's table; none where it has no value or was left out.
    [[nodiscard]] std::optional<std::size_t> position_of(std::int64_t compound) const;
    /// For compounds without own values; nothing where too few compounds were measured.
    const prediction::StructureModel *structure_model();
    /// For curves through own values; nothing where too few compounds were measured.
    const prediction::CompositionCurves *curves();
    /// From two mixtures to a third one, of R_F itself or log10 k; nothing where too few compounds
    /// were measured in all.
    const prediction::NeighbourRegression *neighbours(const std::vector<std::size_t> &known,
                                                      std::size_t target);

    [[nodiscard]] bool has_new() const { return !new_.empty(); }
    /// Keeps the fits that the library did not hold, in a transaction of the caller's.
    void store_new(library::Database &writer);

private:
    using Purpose = library::PredictionPurpose;
    /// Nothing where the family holds too few compounds.
    struct Fitted {
        std::optional<prediction::StructureModel> model;
        prediction::CompositionCurves curves; ///< of `model`, for `own_curves`
    };
    const Fitted &fitted(Purpose purpose);
    Fitted fit(Purpose purpose);

    library::Database *database_;
    SystemFamily family_;
    std::map<Purpose, Fitted> fitted_;
    std::map<Purpose, PredictionFit> new_;
    std::map<std::pair<std::vector<std::size_t>, std::size_t>,
             std::optional<prediction::NeighbourRegression>>
        neighbours_;
};

/// What a library tells about the retention of compounds, each model made once however many
/// compounds are asked for: from what the library keeps of an earlier fit, or else fitted.
class RetentionModels {
public:
    explicit RetentionModels(library::Database &database)
        : database_(&database), features_(database) {}

    [[nodiscard]] library::Database &database() { return *database_; }
    [[nodiscard]] KeptFeatures &features() { return features_; }
    /// The compounds measured on the system, as the matcher sees them.
    const matcher::SystemModel &measured_on(const library::System &system, Quantity quantity);
    FittedFamily &family_of(const library::System &system, Quantity quantity);

    /// Keeps in the library what was fitted anew, in a transaction of its own: for the end of a
    /// command that only reads and writes no report. Where the library cannot be written, or
    /// somebody writes it just now, it does without.
    void keep();

private:
    library::Database *database_;
    KeptFeatures features_;
    std::map<std::pair<std::int64_t, Quantity>, matcher::SystemModel> measured_;
    std::vector<std::unique_ptr<FittedFamily>> families_;
};

} // namespace cospot
