#include "readers/structure_list.h"

#include "readers/compound_table.h"
#include "readers/learn_kind.h"
#include "readers/sdf_file.h"
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
    const LearnKind kind = learn_kind(file, {});
    std::vector<CompoundRow> rows =
        kind == LearnKind::smiles_list ? all_rows(SmilesList(file.stream(), file.name()))
        : kind == LearnKind::sdf       ? all_rows(SdfFile(file.stream(), file.name(), ""))
                                       : all_rows(CompoundTable(file.stream(), file.name(), {}));
    if (rows.empty()) {
        throw InputError({file.name(), 0, ""}, "no structure", "a structure a line");
    }
    return rows;
}

} // namespace cospot
