#pragma once

#include "audit/audited_system.h"

#include <algorithm>
#include <string>
#include <vector>

namespace cospot {

/// Builds invented systems for the tests. Measurements and runs are numbered from 1.
class SystemBuilder {
public:
    SystemBuilder(std::string name, Quantity quantity) {
        system_.id = library::SystemId(std::hash<std::string>{}(name) % 1000000);
        system_.name = std::move(name);
        system_.quantity = quantity;
        system_.technique = quantity == Quantity::Rf ? Technique::tlc : Technique::gc;
        system_.stationary_phase = "silica gel";
    }

    /// Adds a value of a compound, in a run of its own; returns its measurement.
    library::MeasurementId add(std::int64_t compound_number, double value,
                               const std::string &date = "") {
        const library::CompoundId id{compound_number};
        const auto at =
            std::lower_bound(system_.compounds.begin(), system_.compounds.end(), id,
                             [](const AuditedCompound &compound, library::CompoundId other) {
                                 return compound.id < other;
                             });
        auto compound = at;
        if (at == system_.compounds.end() || at->id != id) {
            compound = system_.compounds.insert(
                at, {id, "compound " + std::to_string(compound_number), {}});
        }
        ++count_;
        const library::MeasurementId measurement{count_};
        compound->values.push_back({measurement, library::RunId{count_}, true, date, value});
        return measurement;
    }

    [[nodiscard]] AuditedSystem &system() { return system_; }

private:
    AuditedSystem system_;
    std::int64_t count_ = 0;
};

} // namespace cospot
