#include "evidence/reference_peak.h"

#include "library/names.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

std::optional<std::size_t> named_in_file(library::Database &database, const std::string &reference,
                                         const std::vector<Peak> &peaks, const std::string &file) {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < peaks.size(); ++i) {
        if (peaks[i].compound.empty() ||
            !is_same_compound(database, peaks[i].compound, reference)) {
            continue;
        }
        if (found) {
            throw InputError({file, peaks[i].line, "compound"},
                             in_quotes(peaks[i].compound) + " again, as peak " +
                                 in_quotes(peaks[*found].name),
                             "the reference compound in one row only");
        }
        found = i;
    }
    return found;
}

std::size_t named_by_user(const std::vector<Peak> &peaks, const std::string &name,
                          const std::string &file) {
    const auto peak =
        std::find_if(peaks.begin(), peaks.end(), [&](const Peak &one) { return one.name == name; });
    if (peak == peaks.end()) {
        throw InputError({"command line, --reference-peak", 0, ""}, in_quotes(name),
                         "the name of a peak in " + file);
    }
    return static_cast<std::size_t>(peak - peaks.begin());
}

/// Of those that the column kept; none where one of them has no area.
std::optional<std::size_t> largest(const std::vector<Peak> &peaks) {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < peaks.size(); ++i) {
        if (!peaks[i].called_unretained.empty()) {
            continue;
        }
        if (!peaks[i].area && !peaks[i].is_area_below) {
            return std::nullopt;
        }
        if (peaks[i].area && (!found || *peaks[i].area > *peaks[*found].area)) {
            found = i;
        }
    }
    return found;
}

} // namespace

std::optional<ReferencePeak> find_reference_peak(library::Database &database,
                                                 const std::string &reference,
                                                 const std::vector<Peak> &peaks,
                                                 const ReferenceChoice &choice,
                                                 const std::string &file) {
    const auto by_column = named_in_file(database, reference, peaks, file);
    if (choice.peak) {
        const std::size_t chosen = named_by_user(peaks, *choice.peak, file);
        if (by_column && *by_column != chosen) {
            throw InputError({"command line, --reference-peak", 0, ""}, in_quotes(*choice.peak),
                             fmt::format("peak {}, which {} calls {}",
                                         in_quotes(peaks[*by_column].name), file,
                                         in_quotes(peaks[*by_column].compound)));
        }
        return ReferencePeak{chosen, false};
    }
    if (by_column) {
        return ReferencePeak{*by_column, false};
    }
    if (choice.declared && is_same_compound(database, *choice.declared, reference)) {
        if (const auto peak = largest(peaks)) {
            return ReferencePeak{*peak, true};
        }
    }
    return std::nullopt;
}

void check_shows(const library::System &system, Quantity quantity, const Where &where) {
    if (!can_show(system.technique, quantity)) {
        throw InputError(where,
                         fmt::format("{} on {}, a {} system", to_text(quantity),
                                     in_quotes(system.name), to_text(system.technique)),
                         "Rf on plates and paper; k, RI, tR, RRT or r in columns");
    }
    if (is_relative(quantity) && system.reference.empty()) {
        throw InputError(where,
                         fmt::format("{} on {}, which names no reference compound",
                                     to_text(quantity), in_quotes(system.name)),
                         "a system with a reference (state it in the column reference of a table "
                         "for learn --systems)");
    }
}

InputError no_reference_peak(const library::System &system, const std::string &file) {
    return {{file, 0, ""},
            fmt::format("no peak of {}, the reference compound of {}", in_quotes(system.reference),
                        in_quotes(system.name)),
            "its name in the column compound, or --reference-peak PEAK: relative retention counts "
            "from it"};
}

} // namespace cospot
