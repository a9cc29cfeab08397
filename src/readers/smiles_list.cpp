#include "readers/smiles_list.h"

#include "readers/measurement_table.h"
#include "shared/text.h"

#include <algorithm>
#include <utility>

namespace cospot {

SmilesList::SmilesList(std::istream &in, std::string file)
    : lines_(in, std::move(file), "a list of SMILES in UTF-8") {}

bool SmilesList::next(CompoundRow &row) {
    while (lines_.next(text_)) {
        const std::string_view content = trimmed(text_);
        if (content.empty() || content.front() == '#') {
            continue;
        }
        const std::size_t blank = content.find_first_of(" \t");
        row = {};
        row.where = {lines_.file(), lines_.line(), ""};
        row.smiles = content.substr(0, blank);
        row.compound = trimmed(content.substr(std::min(blank, content.size())));
        if (row.compound.empty()) {
            throw InputError(row.where, in_quotes(content), "SMILES, a blank and a name");
        }
        check_compound_name(row.compound, row.where);
        return true;
    }
    return false;
}

} // namespace cospot
