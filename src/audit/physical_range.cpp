#include "audit/physical_range.h"

#include "shared/number.h"

#include <fmt/format.h>

#include <cmath>
#include <string_view>

namespace cospot {

namespace {

bool is_possible(Quantity quantity, double value) {
    if (!std::isfinite(value)) {
        return false;
    }
    switch (quantity) {
    case Quantity::Rf:
        return value >= 0.0 && value <= 1.0;
    case Quantity::k:
        return value >= 0.0;
    case Quantity::RI:
    case Quantity::tR:
    case Quantity::RRT:
    case Quantity::r:
        break;
    }
    return value > 0.0;
}

std::string_view possible_range(Quantity quantity) {
    switch (quantity) {
    case Quantity::Rf:
        return "R_F lies from 0 (start) to 1 (front)";
    case Quantity::k:
        return "a retention factor is 0 or more";
    case Quantity::RI:
        return "a retention index is above 0";
    case Quantity::RRT:
    case Quantity::r:
        return "a relative retention is above 0";
    case Quantity::tR:
        break;
    }
    return "a retention time is above 0 min";
}

} // namespace

std::vector<Finding> physical_range_findings(const AuditedSystem &system) {
    std::vector<Finding> findings;
    for (const AuditedCompound &compound : system.compounds) {
        std::vector<FindingRow> rows;
        std::string values;
        for (const AuditedValue &value : compound.values) {
            if (!is_possible(system.quantity, value.value)) {
                rows.push_back({value.measurement, true});
                values += (values.empty() ? "" : ", ") + exact_text(value.value);
            }
        }
        if (!rows.empty()) {
            findings.push_back(
                {.kind = FindingKind::physical_range,
                 .subject = compound.name + " on " + system.name,
                 .text = fmt::format("{} {} cannot be: {}.", to_text(system.quantity), values,
                                     possible_range(system.quantity)),
                 .advice = "Check the distances or times it came from; measure again, or retire "
                           "the value.",
                 .rows = std::move(rows)});
        }
    }
    return findings;
}

} // namespace cospot
