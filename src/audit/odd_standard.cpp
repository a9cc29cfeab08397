#include "audit/odd_standard.h"

#include "audit/robust.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace cospot {

std::optional<std::size_t> odd_standard(const DateShift &date, double centre, double scatter) {
    constexpr double clearly_farther = 3.0; // our own choice
    if (date.deviations.size() != 2) {
        return std::nullopt;
    }
    StandardOnDate near = date.deviations[0];
    StandardOnDate far = date.deviations[1];
    if (std::abs(near.deviation - centre) > std::abs(far.deviation - centre)) {
        std::swap(near, far);
    }
    const bool disagree = std::abs(far.deviation - near.deviation) > kOutlyingScore * scatter;
    const bool is_alone =
        std::abs(far.deviation - centre) >= clearly_farther * std::abs(near.deviation - centre);
    return disagree && is_alone ? std::optional(far.compound) : std::nullopt;
}

Finding odd_standard_finding(const AuditedSystem &system, std::span<const DateShift> dates,
                             std::size_t compound, const std::string &period,
                             const std::string &unit) {
    const AuditedCompound &odd = system.compounds[compound];
    double farthest = 0.0;
    Finding finding{.kind = FindingKind::drift,
                    .subject = odd.name + " on " + system.name,
                    .text = "",
                    .advice = "Look up how these values were read, and whether the standard was "
                              "mixed up or has gone off; retire a value that is wrong."};
    for (const DateShift &date : dates) {
        for (const StandardOnDate &standard : date.deviations) {
            if (standard.compound == compound &&
                std::abs(standard.deviation) > std::abs(farthest)) {
                farthest = standard.deviation;
            }
        }
        for (const library::MeasurementId measurement : date.measurements) {
            const bool is_its_own =
                std::any_of(odd.values.begin(), odd.values.end(), [&](const AuditedValue &value) {
                    return value.measurement == measurement;
                });
            finding.rows.push_back({measurement, is_its_own});
        }
    }
    std::stable_partition(finding.rows.begin(), finding.rows.end(),
                          [](const FindingRow &row) { return row.is_suspect; });
    finding.text = fmt::format("{} the control standard {} is off alone by {:+.2g} {}, while the "
                               "other one lies where it usually does (limit {:.1f} robust "
                               "standard deviations between the two).",
                               period, odd.name, farthest, unit, kOutlyingScore);
    return finding;
}

} // namespace cospot
