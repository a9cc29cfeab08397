// Single fields and options: numbers, dates, registry numbers, formulas, eluents, scales, names.
#include "fuzzed.h"
#include "quantities/element_counts.h"
#include "quantities/index_scale.h"
#include "quantities/rounding.h"
#include "quantities/solvent_strength.h"
#include "quantities/stains.h"
#include "quantities/stationary_phase.h"
#include "shared/csv.h"
#include "shared/date.h"
#include "shared/eluent.h"
#include "shared/number.h"
#include "shared/quantity.h"
#include "shared/registry_number.h"
#include "shared/text.h"

#include <cmath>
#include <numeric>

using namespace cospot;

namespace {

const Where kPlace{fuzz::kFile, 1, "value"};

void feed_numbers(const std::string &text) {
    if (const auto number = number_from_text(text)) {
        fuzz::require(number_from_text(exact_text(*number)) == number, "a number reads back");
    }
    (void)fuzz::accepts_file([&] { (void)parse_number(text, kPlace, "a number"); });
    if (const auto decimal = purity::decimal_from_text(text)) {
        const auto again = purity::decimal_from_text(purity::to_text(*decimal));
        fuzz::require(again && again->value == decimal->value &&
                          again->decimals == decimal->decimals,
                      "a decimal reads back");
        fuzz::require(!purity::exceeds(decimal->value, *decimal), "no value exceeds itself");
    }
}

void feed_dates_and_numbers_of_compounds(const std::string &text) {
    (void)fuzz::accepts_file(
        [&] { fuzz::require(parse_date(text, kPlace) == text, "a date is kept as written"); });
    const bool accepted = fuzz::accepts_file([&] { check_registry_number(text, kPlace); });
    fuzz::require(accepted == is_registry_number(text), "a registry number is one or is refused");
    if (const auto elements = element_counts(text)) {
        for (const auto &[symbol, count] : *elements) {
            fuzz::require(count > 0, "atoms are counted from 1");
        }
    }
}

void feed_eluents(const std::string &text) {
    (void)fuzz::accepts_file([&] {
        const auto eluent = parse_eluent(text, kPlace);
        const auto fractions = volume_fractions(eluent);
        const double sum = std::accumulate(fractions.begin(), fractions.end(), 0.0);
        fuzz::require(std::abs(sum - 1.0) < 1e-9, "fractions sum to 1");
        (void)fuzz::accepts([&] { (void)quantities::solvent_polarity(text); });
    });
    for (const auto adsorbent : {quantities::Adsorbent::silica, quantities::Adsorbent::alumina}) {
        (void)fuzz::accepts([&] { (void)quantities::solvent_strength(text, adsorbent); });
    }
}

void feed_names(const std::string &text) {
    (void)quantity_from_text(text);
    (void)technique_from_text(text);
    (void)quantities::liquid_phase_of(text);
    (void)quantities::gas_phase_of(text);
    (void)find_stain(text);
    if (const auto scale = quantities::index_scale_from_text(text)) {
        const auto again = quantities::index_scale_from_text(quantities::to_text(*scale));
        fuzz::require(again == scale, "a scale reads back");
    }
    if (const auto homologue = quantities::homologue_from_name(text)) {
        fuzz::require(homologue->carbon > 0, "a homologue has carbon");
    }
}

void feed_printing(const std::string &text) {
    constexpr std::size_t width = 12;
    fuzz::require(first_invalid_utf8(printable(text)) == std::string::npos, "UTF-8 is printed");
    fuzz::require(first_invalid_utf8(in_quotes(text)) == std::string::npos, "UTF-8 is quoted");
    fuzz::require(display_width(padded(text, width)) == width, "a column has its width");
    fuzz::require(display_width(fitted(text, width)) <= width, "a fitted text fits");
}

} // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string text = fuzz::text_of(data, size);
    feed_numbers(text);
    feed_dates_and_numbers_of_compounds(text);
    feed_eluents(text);
    feed_names(text);
    feed_printing(text);
    return 0;
}
