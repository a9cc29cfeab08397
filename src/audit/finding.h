#pragma once

#include "library/ids.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// What a check of the library found; also what `--only` and `--skip` choose from.
enum class FindingKind { replicates, drift, physical_range, elution_order, coverage, identity };

inline constexpr std::array kFindingKinds{FindingKind::replicates,     FindingKind::drift,
                                          FindingKind::physical_range, FindingKind::elution_order,
                                          FindingKind::coverage,       FindingKind::identity};

[[nodiscard]] std::string_view to_text(FindingKind kind);
[[nodiscard]] std::optional<FindingKind> finding_kind_from_text(std::string_view text);

/// How grave a finding is: what cannot be true, what may well be wrong, what is only thin.
enum class Severity { grave, doubtful, minor };

[[nodiscard]] Severity severity_of(FindingKind kind);
[[nodiscard]] std::string_view to_text(Severity severity);

/// A value of the library that a finding rests on.
struct FindingRow {
    library::MeasurementId measurement{};
    bool is_suspect = true; ///< false: shown for comparison
};

/// Something in the library that needs attention.
struct Finding {
    FindingKind kind = FindingKind::replicates;
    std::string subject; ///< the compound, system or name that it is about
    std::string text;    ///< one sentence
    std::string advice;  ///< what to do
    std::vector<FindingRow> rows{};
    std::vector<library::CompoundId> structures{}; ///< where structures are in conflict
};

} // namespace cospot
