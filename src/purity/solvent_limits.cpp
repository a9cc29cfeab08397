#include "purity/solvent_limits.h"

#include "purity/solvent_table.h"
#include "shared/embedded_table.h"
#include "shared/table.h"
#include "shared/text.h"

#include <algorithm>
#include <cmath>
#include <sstream>

namespace cospot::purity {

namespace {

std::vector<SolventLimit> read_solvent_limits() {
    std::istringstream in{std::string(without_comments(kSolventTable))};
    TableReader table(in, "residual_solvents.tsv",
                      {{"solvent", true},
                       {"cas", true},
                       {"class", true},
                       {"pde_mg_day", true},
                       {"limit_ppm", true},
                       {"inchikeys", true}});
    std::vector<SolventLimit> all;
    while (table.next()) {
        SolventLimit limit;
        limit.name = table.required_text("solvent", "the name of a solvent");
        limit.cas = table.text("cas");
        limit.solvent_class = static_cast<int>(table.number("class", "1, 2 or 3"));
        limit.pde_mg_day = table.optional_number("pde_mg_day", "mg a day");
        limit.limit_ppm = table.number("limit_ppm", "mg/kg");
        std::istringstream keys{
            std::string(table.required_text("inchikeys", "InChIKeys with | between"))};
        for (std::string key; std::getline(keys, key, '|');) {
            limit.inchikeys.push_back(key);
        }
        all.push_back(std::move(limit));
    }
    return all;
}

} // namespace

const std::vector<SolventLimit> &solvent_limits() {
    static const std::vector<SolventLimit> all = read_solvent_limits();
    return all;
}

const SolventLimit *solvent_limit(std::string_view inchikey) {
    for (const SolventLimit &limit : solvent_limits()) {
        if (std::find(limit.inchikeys.begin(), limit.inchikeys.end(), inchikey) !=
            limit.inchikeys.end()) {
            return &limit;
        }
    }
    return nullptr;
}

const SolventLimit *solvent_limit_called(std::string_view name) {
    const auto &limits = solvent_limits();
    const auto limit = std::find_if(limits.begin(), limits.end(), [&](const SolventLimit &one) {
        return equal_ignoring_case(one.name, name);
    });
    return limit == limits.end() ? nullptr : &*limit;
}

Decimal limit_at(const SolventLimit &limit, std::optional<double> dose_mg_day) {
    constexpr double assumed_dose_mg = 10000.0;
    if (!dose_mg_day || *dose_mg_day <= assumed_dose_mg) {
        return {limit.limit_ppm, 0};
    }
    const double ppm = limit.limit_ppm * assumed_dose_mg / *dose_mg_day;
    const int decimals = ppm < 10.0 ? 2 : 0;
    const double unit = std::pow(10.0, -decimals);
    return {std::floor(ppm / unit) * unit, decimals}; // never above what the dose allows
}

} // namespace cospot::purity
