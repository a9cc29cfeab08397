// Rules for `purity` in JSON, and what is asked of them.
#include "fuzzed.h"
#include "purity/rules.h"
#include "readers/purity_rules.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string text = fuzz::text_of(data, size);
    (void)fuzz::accepts([&] { // a fault in the outermost object has no place but its field's name
        const purity::Rules rules = read_purity_rules(text, fuzz::kFile);
        for (const purity::DoseBands &bands :
             {rules.reporting, rules.identification, rules.qualification}) {
            const purity::DoseBand *band = purity::band_for(bands, 100.0);
            fuzz::require(bands.empty() || band != nullptr, "each dose has a band");
            if (band != nullptr) {
                (void)purity::to_text(*band, 100.0);
                (void)purity::exceeds(purity::reported_percent(0.1, band->percent.decimals), *band,
                                      100.0);
            }
        }
    });
    return 0;
}
