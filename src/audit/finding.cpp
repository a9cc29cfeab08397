#include "audit/finding.h"

namespace cospot {

std::string_view to_text(FindingKind kind) {
    switch (kind) {
    case FindingKind::replicates:
        return "replicates";
    case FindingKind::drift:
        return "drift";
    case FindingKind::physical_range:
        return "physical-range";
    case FindingKind::elution_order:
        return "elution-order";
    case FindingKind::coverage:
        return "coverage";
    case FindingKind::identity:
        return "identity";
    }
    return "";
}

std::optional<FindingKind> finding_kind_from_text(std::string_view text) {
    for (const FindingKind kind : kFindingKinds) {
        if (text == to_text(kind)) {
            return kind;
        }
    }
    return std::nullopt;
}

} // namespace cospot
