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

Severity severity_of(FindingKind kind) {
    switch (kind) {
    case FindingKind::physical_range:
    case FindingKind::identity:
        return Severity::grave;
    case FindingKind::replicates:
    case FindingKind::drift:
    case FindingKind::elution_order:
        return Severity::doubtful;
    case FindingKind::coverage:
        break;
    }
    return Severity::minor;
}

std::string_view to_text(Severity severity) {
    switch (severity) {
    case Severity::grave:
        return "grave";
    case Severity::doubtful:
        return "doubtful";
    case Severity::minor:
        return "minor";
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
