#include "shared/table.h"
#include "shared/text.h"
#include "shared/usual_headers.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace cospot {

std::vector<std::string> TableReader::notes() const {
    std::vector<std::string> notes;
    if (above_ > 0) {
        notes.push_back(fmt::format("the header is line {}; {} above it {} not read", header_line_,
                                    counted(above_, "line"), above_ == 1 ? "is" : "are"));
    }
    for (const std::string &column : match_.unused) {
        const std::string map = proposed_maps({column}, absent_columns());
        notes.push_back("column " + in_quotes(column) + " is not used" +
                        (map.empty() ? "" : "; " + map + " reads it"));
    }
    for (std::size_t i = 0; i < columns_.known.size(); ++i) {
        if (const auto &place = match_.places[i]; place && !place->unit.empty()) {
            notes.push_back(fmt::format("column {} is read in {} and converted to {}",
                                        in_quotes(trimmed(header_[place->field])), place->unit,
                                        columns_.known[i].unit));
        }
    }
    for (const std::string &column : unread_) {
        notes.push_back("--map: no column " + in_quotes(column) + " is read from this table");
    }
    std::string missing;
    for (const ColumnAlias &alias : missing_) {
        settle(alias);
        missing += fmt::format("{}{} for {}", missing.empty() ? "" : ", ", in_quotes(alias.header),
                               alias.column);
    }
    if (!missing.empty()) {
        notes.push_back("--map: there is no column " + missing);
    }
    if (csv_.first_of_windows_1252() != 0) {
        notes.push_back(fmt::format("the text is read as Windows-1252 (from line {} on): check "
                                    "letters with accents, or save as CSV UTF-8",
                                    csv_.first_of_windows_1252()));
    }
    if (decimal_sign_.line_with_comma() != 0) {
        notes.push_back(fmt::format("a comma is read as the decimal sign (line {})",
                                    decimal_sign_.line_with_comma()));
    }
    if (decimal_sign_.line_with_groups() != 0) {
        notes.push_back(fmt::format("a sign or blank between thousands is passed over (line {})",
                                    decimal_sign_.line_with_groups()));
    }
    if (!lines_of_sums_.empty()) {
        notes.push_back(fmt::format(
            "{} left out (line{} {})", counted(lines_of_sums_.size(), "row") + " of sums",
            lines_of_sums_.size() == 1 ? "" : "s", fmt::join(lines_of_sums_, ", ")));
    }
    if (!remarks_.empty()) {
        constexpr std::size_t most = 3;
        notes.push_back(fmt::format(
            "{} left out, a text without any number: {}{}", counted(remarks_.size(), "row"),
            fmt::join(remarks_.begin(),
                      remarks_.begin() +
                          static_cast<std::ptrdiff_t>(std::min(most, remarks_.size())),
                      "; "),
            remarks_.size() > most ? fmt::format("; and {} more", remarks_.size() - most) : ""));
    }
    return notes;
}

} // namespace cospot
