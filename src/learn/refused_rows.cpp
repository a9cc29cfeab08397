#include "learn/refused_rows.h"

#include "shared/csv.h"

#include <utility>

namespace cospot {

RefusedRows::RefusedRows(std::string file) : file_(std::move(file)) {}

void RefusedRows::add(const InputError &error, const std::vector<std::string> &header,
                      const std::vector<std::string> &fields) {
    if (count_++ == 0) {
        library::check_name_is_free(file_);
        partial_ = std::make_unique<library::PartialFile>(file_);
        out_.open(partial_->name(), std::ios::binary);
        write_row(header, "refused");
    }
    write_row(fields, error.what());
    out_.flush();
    if (!out_) {
        throw InputError({file_, 0, ""}, "a file that cannot be written",
                         "a place for the refused rows (--refused FILE)");
    }
}

void RefusedRows::publish() {
    if (partial_) {
        out_.close();
        partial_->publish();
        partial_.reset();
    }
}

void RefusedRows::write_row(const std::vector<std::string> &fields, const std::string &reason) {
    for (const std::string &field : fields) {
        out_ << csv_field(without_guard(field)) << ',';
    }
    out_ << csv_field(reason) << '\n';
}

} // namespace cospot
