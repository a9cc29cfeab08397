#pragma once

#include "readers/compound_row.h"

#include <cstddef>
#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// A list of SMILES: a structure a line, a blank, its name. Lines that are empty or start with '#'
/// are passed over.
class SmilesList {
public:
    SmilesList(std::istream &in, std::string file);
    [[nodiscard]] bool next(CompoundRow &row);
    [[nodiscard]] std::vector<std::string> header() const { return {"structure and name"}; }
    [[nodiscard]] std::vector<std::string> fields() const { return {text_}; }

private:
    std::istream *in_;
    std::string file_;
    std::string text_;
    std::size_t line_ = 0;
};

} // namespace cospot
