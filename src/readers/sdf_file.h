#pragma once

#include "readers/compound_row.h"
#include "shared/line_reader.h"

#include <cstddef>
#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// Records of an SD file (MDL): a mol block, then data fields. The name is the field `name_field`,
/// or, if that is empty, the first line of the mol block. A field named "cas" (case ignored) is the
/// registry number. Throws InputError for a record without a name or longer than 10 MiB; `next` may
/// be called again and goes on with the next record.
class SdfFile {
public:
    SdfFile(std::istream &in, std::string file, std::string name_field);
    [[nodiscard]] bool next(CompoundRow &row);
    [[nodiscard]] std::vector<std::string> header() const { return {"line of the record"}; }
    [[nodiscard]] std::vector<std::string> fields() const { return {std::to_string(record_line_)}; }

private:
    bool read_record();
    void skip_record();
    std::size_t read_structure(CompoundRow &row) const;
    void read_fields(CompoundRow &row, std::size_t first) const;

    LineReader lines_;
    std::string name_field_;
    std::vector<std::string> record_; ///< the lines of the present record, without its end
    std::size_t record_line_ = 0;
    bool is_inside_record_ = false; ///< after a fault
};

} // namespace cospot
