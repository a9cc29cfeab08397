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
        system_.id = static_cast<std::int64_t>(std::hash<std::string>{}(name) % 1000000);
        system_.name = std::move(name);
        system_.quantity = quantity;
        system_.technique = quantity == Quantity::Rf ? Technique::tlc : Technique::gc;
        system_.stationary_phase = "silica gel";
    }

    /// Adds a value of compound `id`, in a run of its own; returns its measurement.
    std::int64_t add(std::int64_t id, double value, const std::string &date = "") {
        const auto at = std::lower_bound(system_.compounds.begin(), system_.compounds.end(), id,
                                         [](const AuditedCompound &compound, std::int64_t other) {
                                             return compound.id < other;
                                         });
        auto compound = at;
        if (at == system_.compounds.end() || at->id != id) {
            compound = system_.compounds.insert(at, {id, "compound " + std::to_string(id), {}});
        }
        ++count_;
        compound->values.push_back({count_, count_, true, date, value});
        return count_;
    }

    [[nodiscard]] AuditedSystem &system() { return system_; }

private:
    AuditedSystem system_;
    std::int64_t count_ = 0;
};

} // namespace cospot
