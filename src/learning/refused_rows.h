#pragma once

#include "shared/error.h"

#include <cstddef>
#include <fstream>
#include <string>
#include <vector>

namespace cospot {

/// Gathers the rows that `learn --partial` leaves out, in a table of their own: the columns of the
/// input and why each row was refused, to be mended and learned again. The file is made at the
/// first refusal and never overwrites another.
class RefusedRows {
public:
    /// `file` is where the table goes.
    explicit RefusedRows(std::string file);

    void add(const InputError &error, const std::vector<std::string> &header,
             const std::vector<std::string> &fields);

    [[nodiscard]] std::size_t count() const noexcept { return count_; }
    [[nodiscard]] const std::string &file() const noexcept { return file_; }

private:
    void write_row(const std::vector<std::string> &fields, const std::string &reason);

    std::string file_;
    std::ofstream out_;
    std::size_t count_ = 0;
};

} // namespace cospot
