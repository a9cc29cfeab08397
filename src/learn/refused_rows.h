#pragma once

#include "library/partial_file.h"
#include "shared/error.h"

#include <cstddef>
#include <fstream>
#include <memory>
#include <string>
#include <vector>

namespace cospot {

/// Gathers the rows that `learn --partial` leaves out, in a table of their own: the columns of the
/// input and why each row was refused, to be mended and learned again. The file is made at the
/// first refusal and never overwrites another file.
class RefusedRows {
public:
    /// `file` is where the table goes.
    explicit RefusedRows(std::string file);

    /// Gives the table its name: call it when the rows that were not refused are stored. Without,
    /// the table is removed, so that the same file can be learned again.
    void publish();

    void add(const InputError &error, const std::vector<std::string> &header,
             const std::vector<std::string> &fields);

    [[nodiscard]] std::size_t count() const noexcept { return count_; }
    [[nodiscard]] const std::string &file() const noexcept { return file_; }

private:
    void write_row(const std::vector<std::string> &fields, const std::string &reason);

    std::string file_;
    std::unique_ptr<library::PartialFile> partial_;
    std::ofstream out_;
    std::size_t count_ = 0;
};

} // namespace cospot
