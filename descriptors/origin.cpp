#include "descriptors/origin.h"

#include "shared/text.h"

#include <RDGeneral/RDLog.h>
#include <fmt/format.h>

namespace cospot::descriptors {

Origin smiles_origin(std::string_view smiles) {
    return {in_quotes(smiles), "the SMILES of one compound"};
}

Origin mol_block_origin(std::string_view block) {
    const std::string_view title = trimmed(block.substr(0, block.find('\n')));
    return {title.empty() ? "a mol block without title" : "the mol block " + in_quotes(title),
            "the MDL mol block (V2000 or V3000) of one compound"};
}

void refuse(const Origin &origin, std::string_view reason) {
    throw InputError({}, fmt::format("{} ({})", origin.quoted, reason), origin.expected);
}

void silence_log() {
    [[maybe_unused]] static const bool silent = [] {
        boost::logging::disable_logs("rdApp.*");
        return true;
    }();
}

} // namespace cospot::descriptors
