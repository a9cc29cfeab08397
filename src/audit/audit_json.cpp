#include "audit/audit_json.h"

namespace cospot {

Json finding_json(const ShownFinding &shown) {
    Json rows = Json::array();
    for (const auto &[row, value] : shown.values) {
        rows.push_back({{"measurement", row.measurement},
                        {"suspect", row.is_suspect},
                        {"compound", value.compound},
                        {"system", value.system},
                        {"quantity", to_text(value.quantity)},
                        {"value", value.value},
                        {"run", value.run},
                        {"date", value.date}});
    }
    Json structures = Json::array();
    for (const ShownStructure &structure : shown.structures) {
        structures.push_back({{"compound", structure.name},
                              {"inchikey", structure.inchikey},
                              {"smiles", structure.smiles},
                              {"values", structure.values}});
    }
    const Finding &finding = shown.finding;
    return Json{
        {"kind", to_text(finding.kind)},      {"severity", to_text(severity_of(finding.kind))},
        {"subject", finding.subject},         {"text", finding.text},
        {"advice", finding.advice},           {"rows", std::move(rows)},
        {"structures", std::move(structures)}};
}

} // namespace cospot
