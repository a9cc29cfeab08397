#pragma once

#include "shared/error.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// A term of the vocabulary psims (PSI-MS) as a cvParam of mzML has it.
struct MzmlParam {
    std::string accession{}; ///< "MS:1000515"
    std::string name{};
    std::string value{};
    std::string unit_accession{}; ///< "UO:0000010"; empty where there is none
    std::string unit_name{};
};

/// The unit of a term: "second" and "minute" by accession, any other as it is named there; empty
/// where there is none.
[[nodiscard]] std::string unit_of(const MzmlParam &param);

/// A binaryDataArray of mzML 1.1 while it is read: its terms, then its base64 text.
class MzmlArray {
public:
    enum class Holds { unknown, time, signal, pump, wavelength };

    /// `length` is the number of values that the file declares. Throws InputError where it is more
    /// than a trace may have.
    MzmlArray(std::size_t length, Where where);

    /// Takes what a term says of the array.
    void take(const MzmlParam &param);
    /// Appends to the base64 text; blanks are passed over. Throws InputError where there is more
    /// than the declared length can need.
    void append(std::string_view base64);
    /// The values, as many as declared. Throws InputError for a number type or compression that is
    /// not stated or not read (Numpress, zstd and others, by name), and for data that are damaged
    /// or of another length.
    [[nodiscard]] std::vector<double> values() const;

    [[nodiscard]] Holds holds() const noexcept { return holds_; }
    [[nodiscard]] std::size_t length() const noexcept { return length_; }
    /// What the unit is called; empty where it is not said.
    [[nodiscard]] const std::string &unit() const noexcept { return unit_; }
    [[nodiscard]] const Where &where() const noexcept { return where_; }

private:
    enum class Number { none, int32, int64, float32, float64 };

    [[nodiscard]] std::string bytes() const;

    std::size_t length_;
    Where where_;
    Holds holds_ = Holds::unknown;
    Number number_ = Number::none;
    std::optional<bool> is_compressed_;
    std::string refused_; ///< the compression that is not read
    std::string unit_;
    std::string base64_;
};

} // namespace cospot
