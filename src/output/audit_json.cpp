#include "output/audit_json.h"

#include "audit/audit_data.h"

namespace cospot {

Json finding_json(const Finding &finding, library::Database &database) {
    Json rows = Json::array();
    for (const FindingRow &row : finding.rows) {
        const ShownValue value = shown_value(database, row.measurement);
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
    for (const std::int64_t id : finding.structures) {
        const ShownStructure structure = shown_structure(database, id);
        structures.push_back({{"compound", structure.name},
                              {"inchikey", structure.inchikey},
                              {"smiles", structure.smiles},
                              {"values", structure.values}});
    }
    return Json{
        {"kind", to_text(finding.kind)},      {"severity", to_text(severity_of(finding.kind))},
        {"subject", finding.subject},         {"text", finding.text},
        {"advice", finding.advice},           {"rows", std::move(rows)},
        {"structures", std::move(structures)}};
}

} // namespace cospot
