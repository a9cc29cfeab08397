#pragma once

#include "shared/error.h"

#include <cstddef>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// The labelled records of a JCAMP-DX block that a table needs: labels in capitals without blanks,
/// '-', '/' and '_', as jcamp1988 compares them.
struct JcampRecord {
    std::string text{};
    std::size_t line = 0;
};
using JcampRecords = std::map<std::string, JcampRecord, std::less<>>;

/// A table of data points while its lines are read.
class JcampTable {
public:
    /// `form` is the text behind ##XYDATA= or ##XYPOINTS=. Throws InputError for a form that is not
    /// read and for records that are missing or no numbers.
    JcampTable(std::string_view form, const JcampRecords &records, const Where &where);

    /// Takes one line, without its comment. Throws InputError as `read_jcamp_dx` says.
    void add_line(std::string_view text, std::size_t line);
    /// Checks what can be seen only at the end. Throws InputError.
    void finish(std::size_t line);

    [[nodiscard]] const std::vector<double> &abscissas() const noexcept { return abscissas_; }
    [[nodiscard]] const std::vector<double> &ordinates() const noexcept { return ordinates_; }
    [[nodiscard]] std::size_t line() const noexcept { return where_.line; } ///< where it begins

private:
    void add_pairs(std::string_view text, const Where &where);
    void add_ordinates(std::string_view text, const Where &where);
    [[nodiscard]] double number(const JcampRecords &records, std::string_view label) const;
    [[nodiscard]] double number_or(const JcampRecords &records, std::string_view label,
                                   double otherwise) const;

    Where where_;
    bool is_pairs_ = false;
    double x_factor_ = 1.0;
    double y_factor_ = 1.0;
    double first_x_ = 0.0;
    double last_x_ = 0.0;
    double delta_x_ = 0.0;
    double first_y_ = 0.0;
    bool has_first_y_ = false;
    std::size_t points_ = 0; ///< NPOINTS
    bool ends_in_difference_ = false;
    double last_raw_ = 0.0;         ///< the last ordinate without its factor
    std::vector<double> half_pair_; ///< an abscissa whose ordinate is on the next line
    std::vector<double> abscissas_;
    std::vector<double> ordinates_;
};

} // namespace cospot
