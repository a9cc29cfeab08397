#include "evidence/index_law.h"

#include "shared/text.h"

#include <array>
#include <string_view>

namespace cospot {

namespace {

using quantities::IndexLaw;

bool contains_any(const std::string &text, const auto &words) {
    for (const std::string_view word : words) {
        if (text.find(word) != std::string::npos) {
            return true;
        }
    }
    return false;
}

} // namespace

ChosenLaw index_law_of(const library::System &system) {
    constexpr std::array<std::string_view, 2> constant{"isothermal", "isocratic"};
    constexpr std::array<std::string_view, 3> changing{"programmed", "gradient", "/min"};
    for (const std::string *text : {&system.programme, &system.mobile_phase, &system.note}) {
        const std::string lower = lower_ascii(*text);
        if (contains_any(lower, constant)) {
            return {IndexLaw::logarithmic, false};
        }
        if (contains_any(lower, changing) || (text == &system.programme && !lower.empty())) {
            return {IndexLaw::linear, false};
        }
    }
    return {system.technique == Technique::gc ? IndexLaw::linear : IndexLaw::logarithmic, true};
}

} // namespace cospot
