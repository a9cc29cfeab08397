#include "readers/structure_list.h"

#include "readers/compound_table.h"
#include "readers/learn_kind.h"
#include "readers/smiles_list.h"

namespace cospot {

namespace {

template <typename Source> std::vector<CompoundRow> all_rows(Source source) {
    std::vector<CompoundRow> rows;
    for (CompoundRow row; source.next(row);) {
        rows.push_back(row);
    }
    return rows;
}

} // namespace

std::vector<CompoundRow> read_structures(InputFile &file) {
    const bool is_list = learn_kind(file, {}) == LearnKind::smiles_list;
    std::vector<CompoundRow> rows = is_list
                                        ? all_rows(SmilesList(file.stream(), file.name()))
                                        : all_rows(CompoundTable(file.stream(), file.name(), {}));
    if (rows.empty()) {
        throw InputError({file.name(), 0, ""}, "no structure", "a structure a line");
    }
    return rows;
}

} // namespace cospot
