#pragma once

#include "readers/compound_row.h"
#include "shared/line_reader.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// A list of SMILES: a structure a line, a blank, its name. Lines that are empty or start with '#'
/// are passed over. Throws InputError for a structure without a name.
class SmilesList {
public:
    SmilesList(std::istream &in, std::string file);
    [[nodiscard]] bool next(CompoundRow &row);
    [[nodiscard]] std::vector<std::string> header() const { return {"structure and name"}; }
    [[nodiscard]] std::vector<std::string> fields() const { return {text_}; }

private:
    LineReader lines_;
    std::string text_;
};

} // namespace cospot
