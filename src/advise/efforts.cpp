#include "advise/efforts.h"

#include "shared/number.h"
#include "shared/table.h"
#include "shared/text.h"

#include <set>

namespace cospot {

Efforts usual_efforts() {
    return {{"tlc", 1.0}, {"paper", 3.0},    {"column", 4.0}, {"hplc", 1.5},
            {"gc", 1.5},  {"standard", 1.0}, {"stain", 0.3},  {"mass", 3.0}};
}

void read_efforts(std::istream &in, const std::string &file,
                  const std::vector<ColumnAlias> &aliases, Efforts &efforts) {
    constexpr double least = 0.001; // bits are divided by it
    constexpr double most = 1000.0;
    TableReader table(in, file, {{"measurement", true}, {"effort", true}}, aliases);
    std::set<std::string> seen;
    for_each_row(table, [&] {
        const std::string name(
            table.required_text("measurement", "a system, a technique, standard, stain or mass"));
        const double effort = table.number("effort", "an effort, where a plate is 1");
        if (!(effort >= least && effort <= most)) {
            throw InputError(table.where("effort"), exact_text(effort),
                             "an effort from 0.001 to 1000");
        }
        if (!seen.insert(name).second) {
            throw InputError(table.where("measurement"), in_quotes(name) + " again",
                             "each measurement once");
        }
        efforts[name] = effort;
    });
    if (seen.empty()) {
        throw InputError({file, table.line(), ""}, "a header without rows",
                         "one row a measurement");
    }
}

double effort_of(const Efforts &efforts, const std::string &name, const std::string &kind) {
    const auto own = efforts.find(name);
    return own != efforts.end() ? own->second : efforts.at(kind);
}

} // namespace cospot
