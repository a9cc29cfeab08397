#include "learning/refused_rows.h"

#include "shared/csv.h"

#include <filesystem>
#include <utility>

namespace cospot {

RefusedRows::RefusedRows(std::string file) : file_(std::move(file)) {}

void RefusedRows::add(const InputError &error, const std::vector<std::string> &header,
                      const std::vector<std::string> &fields) {
    if (count_++ == 0) {
        if (std::filesystem::exists(file_)) {
            throw InputError({file_, 0, ""}, "a file of that name",
                             "another name for the refused rows (--refused FILE)");
        }
        out_.open(file_, std::ios::binary);
        write_row(header, "refused");
    }
    write_row(fields, error.what());
    out_.flush();
    if (!out_) {
        throw InputError({file_, 0, ""}, "a file that cannot be written",
                         "a place for the refused rows (--refused FILE)");
    }
}

void RefusedRows::write_row(const std::vector<std::string> &fields, const std::string &reason) {
    for (const std::string &field : fields) {
        out_ << csv_field(field) << ',';
    }
    out_ << csv_field(reason) << '\n';
}

} // namespace cospot
