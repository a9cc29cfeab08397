#include "readers/purity_rules.h"

#include "readers/guidelines.h"
#include "readers/json_text.h"
#include "shared/error.h"
#include "shared/text.h"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>

namespace cospot {

namespace {

using Json = nlohmann::json;
using purity::Decimal;
using purity::DoseBand;

/// A value of the file with the place where it stands.
struct Field {
    const Json *json;
    std::string file;
    std::string place;     ///< such as "identification[1]"; empty: the whole
    std::string_view text; ///< of the file

    [[noreturn]] void fail(const std::string &expected) const {
        throw InputError(where(), in_quotes(json->dump(-1, ' ', false, replace)), expected);
    }
    [[nodiscard]] Where where() const { return where_in_json(text, file, place); }
    [[nodiscard]] bool has(const char *name) const { return json->contains(name); }
    [[nodiscard]] Field at(const char *name) const {
        const std::string below = place.empty() ? name : fmt::format("{}.{}", place, name);
        if (!has(name)) {
            throw InputError(where_in_json(text, file, below), "nothing", "this field");
        }
        return {&(*json)[name], file, below, text};
    }
    [[nodiscard]] Field at(std::size_t index) const {
        return {&(*json)[index], file, fmt::format("{}[{}]", place, index), text};
    }

private:
    static constexpr auto replace = Json::error_handler_t::replace;
};

/// An object without fields of other names, which would be slips.
void check_object(const Field &field, std::initializer_list<std::string_view> names) {
    if (!field.json->is_object()) {
        field.fail("an object {...}");
    }
    for (const auto &[name, value] : field.json->items()) {
        if (std::find(names.begin(), names.end(), name) == names.end()) {
            std::string known;
            for (const std::string_view one : names) {
                known += fmt::format("{}{}", known.empty() ? "" : ", ", one);
            }
            throw InputError(field.where(), "field " + in_quotes(name), "one of: " + known);
        }
    }
}

const std::string &text_of(const Field &field, const char *expected) {
    if (!field.json->is_string() || field.json->get_ref<const std::string &>().empty()) {
        field.fail(expected);
    }
    return field.json->get_ref<const std::string &>();
}

Decimal percent_of(const Field &field) {
    constexpr const char *expected = "per cent as a text such as \"0.10\", at most 100";
    const auto decimal = purity::decimal_from_text(text_of(field, expected));
    if (!decimal || decimal->value > 100.0) {
        field.fail(expected);
    }
    return *decimal;
}

purity::Intake mass_of(const Field &field) {
    constexpr const char *expected = "a mass above 0 such as \"1.0 mg\", in ug, mg or g";
    const std::string &text = text_of(field, expected);
    const std::size_t blank = text.find(' ');
    const auto amount = purity::decimal_from_text(text.substr(0, blank));
    const std::string unit = blank == std::string::npos ? "" : text.substr(blank + 1);
    if (!amount || amount->value <= 0.0 || (unit != "ug" && unit != "mg" && unit != "g")) {
        field.fail(expected);
    }
    return {*amount, unit, unit == "g" ? 1000.0 : unit == "mg" ? 1.0 : 0.001};
}

double dose_of(const Field &field) {
    const purity::Intake mass = mass_of(field);
    return mass.amount.value * mass.mg_per_unit;
}

DoseBand band_of(const Field &field) {
    check_object(field, {"dose_up_to", "dose_below", "percent", "intake"});
    DoseBand band;
    band.percent = percent_of(field.at("percent"));
    if (field.has("intake")) {
        band.intake = mass_of(field.at("intake"));
    }
    if (field.has("dose_up_to") && field.has("dose_below")) {
        field.fail("dose_up_to or dose_below, not both");
    }
    if (field.has("dose_up_to") || field.has("dose_below")) {
        band.inclusive = field.has("dose_up_to");
        band.up_to_mg = dose_of(field.at(band.inclusive ? "dose_up_to" : "dose_below"));
    }
    return band;
}

/// Bands that leave no dose without a threshold and none with two.
void check_bands(const purity::DoseBands &bands, const Field &field) {
    for (std::size_t i = 0; i + 1 < bands.size(); ++i) {
        if (!bands[i].up_to_mg) {
            field.at(i).fail("an upper dose (dose_up_to or dose_below): only the last band has "
                             "none");
        }
        if (bands[i + 1].up_to_mg && *bands[i + 1].up_to_mg <= *bands[i].up_to_mg) {
            field.at(i + 1).fail(fmt::format("an upper dose above the {:g} mg of the band before",
                                             *bands[i].up_to_mg));
        }
    }
    if (bands.back().up_to_mg) {
        throw InputError(
            field.where(),
            fmt::format("a gap: no threshold for doses above {:g} mg", *bands.back().up_to_mg),
            "a last band without an upper dose");
    }
}

purity::DoseBands bands_of(const Field &whole, const char *name) {
    purity::DoseBands bands;
    if (!whole.has(name)) {
        return bands;
    }
    const Field field = whole.at(name);
    if (!field.json->is_array() || field.json->empty()) {
        field.fail("a list of bands [{\"percent\": ...}]");
    }
    for (std::size_t i = 0; i < field.json->size(); ++i) {
        bands.push_back(band_of(field.at(i)));
    }
    check_bands(bands, field);
    return bands;
}

std::vector<purity::SpecifiedLimit> specified_of(const Field &whole) {
    std::vector<purity::SpecifiedLimit> limits;
    if (!whole.has("specified")) {
        return limits;
    }
    const Field field = whole.at("specified");
    if (!field.json->is_array()) {
        field.fail("a list [{\"compound\": ..., \"percent\": ...}]");
    }
    for (std::size_t i = 0; i < field.json->size(); ++i) {
        const Field one = field.at(i);
        check_object(one, {"compound", "percent"});
        const std::string &compound = text_of(one.at("compound"), "the name of a compound");
        const bool is_again = std::any_of(limits.begin(), limits.end(), [&](const auto &limit) {
            return equal_ignoring_case(limit.compound, compound);
        });
        if (is_again) {
            one.at("compound").fail("each compound once");
        }
        limits.push_back({compound, percent_of(one.at("percent"))});
    }
    return limits;
}

std::optional<Decimal> limit_of(const Field &whole, const char *name) {
    return whole.has(name) ? std::optional(percent_of(whole.at(name))) : std::nullopt;
}

std::optional<double> number_of(const Field &field, const char *name) {
    if (!field.has(name)) {
        return std::nullopt;
    }
    const Field number = field.at(name);
    if (!number.json->is_number() || number.json->get<double>() <= 0.0) {
        number.fail("a number above 0");
    }
    return number.json->get<double>();
}

purity::Suitability suitability_of(const Field &whole) {
    purity::Suitability suitability;
    if (!whole.has("suitability")) {
        return suitability;
    }
    const Field field = whole.at("suitability");
    check_object(field,
                 {"resolution_at_least", "symmetry_from", "symmetry_to", "plate_number_at_least"});
    suitability.resolution_at_least = number_of(field, "resolution_at_least");
    suitability.symmetry_from = number_of(field, "symmetry_from");
    suitability.symmetry_to = number_of(field, "symmetry_to");
    suitability.plate_number_at_least = number_of(field, "plate_number_at_least");
    if (suitability.symmetry_from && suitability.symmetry_to &&
        *suitability.symmetry_from > *suitability.symmetry_to) {
        field.fail("symmetry_from at most symmetry_to");
    }
    return suitability;
}

} // namespace

purity::Rules read_purity_rules(std::string_view json, const std::string &file) {
    const Json root = parse_json(json, file, "an object {...} with the rules");
    const Field whole{&root, file, "", json};
    check_object(whole, {"name", "source", "reporting", "identification", "qualification",
                         "specified", "any_other", "total", "declared_at_least", "suitability"});
    purity::Rules rules;
    rules.name = text_of(whole.at("name"), "the name of the rules");
    if (whole.has("source")) {
        rules.source = text_of(whole.at("source"), "where the rules are from");
    }
    rules.reporting = bands_of(whole, "reporting");
    rules.identification = bands_of(whole, "identification");
    rules.qualification = bands_of(whole, "qualification");
    rules.specified = specified_of(whole);
    rules.any_other = limit_of(whole, "any_other");
    rules.total = limit_of(whole, "total");
    rules.declared_at_least = limit_of(whole, "declared_at_least");
    rules.suitability = suitability_of(whole);
    return rules;
}

purity::Rules guideline_rules(std::string_view kind) {
    const bool is_product = kind == "product";
    if (!is_product && kind != "substance") {
        throw InputError({"command line, --for", 0, ""}, in_quotes(kind),
                         "substance (new substances) or product (degradation in new products)");
    }
    return read_purity_rules(is_product ? purity::kProductRules : purity::kSubstanceRules,
                             "built-in rules");
}

} // namespace cospot
