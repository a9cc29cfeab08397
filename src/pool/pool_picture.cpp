#include "pool/pool_picture.h"

#include "drawing/fractions_picture.h"
#include "drawing/fractions_text.h"
#include "pool/pool_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace cospot {

namespace {

DrawnState drawn_state(fractions::FractionState state) {
    switch (state) {
    case fractions::FractionState::one_spot:
        return DrawnState::one;
    case fractions::FractionState::mixed:
        return DrawnState::mixed;
    case fractions::FractionState::no_spot:
        break;
    }
    return DrawnState::none;
}

DrawnComponent drawn_component(const PoolResult &result, std::size_t index) {
    const fractions::Component &component = result.run.components[index];
    DrawnComponent drawn{component.name, is_target(result, index), {}};
    if (component.rf) {
        drawn.name = fmt::format("{:<2} Rf {:.2f}", component.name, *component.rf);
    }
    double largest = 0.0;
    for (const fractions::BandSpot &spot : component.spots) {
        largest = std::max(largest, spot.intensity.value_or(0.0));
    }
    for (const fractions::BandSpot &spot : component.spots) {
        drawn.cells.push_back({result.run.fractions[spot.fraction].number,
                               spot.intensity && largest > 0.0
                                   ? std::optional(*spot.intensity / largest)
                                   : std::nullopt});
    }
    return drawn;
}

/// A bracket for each of the neighbourhoods of a pool.
void add_brackets(std::vector<DrawnBracket> &brackets, const std::vector<int> &numbers,
                  const std::string &label) {
    for (const fractions::FractionRange &range : fractions::ranges_of(numbers)) {
        brackets.push_back({range.first, range.last, label});
    }
}

DrawnRun drawn_run(const PoolResult &result) {
    DrawnRun drawn;
    drawn.threshold = result.threshold;
    for (std::size_t i = 0; i < result.run.fractions.size(); ++i) {
        const fractions::Fraction &fraction = result.run.fractions[i];
        drawn.fractions.push_back(
            {fraction.number, std::to_string(fraction.number),
             fmt::format("fraction {}: {}", fraction.number, seen_text(result, i)),
             drawn_state(result.pooling.states[i]), fraction.signal});
    }
    for (std::size_t i = 0; i < result.run.components.size(); ++i) {
        drawn.components.push_back(drawn_component(result, i));
        add_brackets(drawn.combine, result.pooling.components[i].one_spot,
                     result.run.components[i].name);
    }
    for (const fractions::MixedPool &pool : result.pooling.mixed) {
        std::string label;
        for (const std::size_t component : pool.components) {
            label += (label.empty() ? "" : " + ") + result.run.components[component].name;
        }
        add_brackets(drawn.keep_apart, pool.fractions, label);
    }
    return drawn;
}

std::string run_caption(bool is_trace) {
    return fmt::format(
        "{}Each column is a fraction: filled, one {} seen; hatched, several; empty frame, none; a "
        "dash, fractions that nobody looked at. Bars are as high as the intensity of a component "
        "within its own band, and half as high with a broken outline where none was stated; never "
        "compare components by them. Brackets: fractions to combine, and (broken line) to keep "
        "apart.",
        is_trace ? "The curve is the detector’s signal, the broken line the level up to which it "
                   "counts as nothing. "
                 : "",
        is_trace ? "band" : "spot");
}

} // namespace

std::vector<Figure> pool_figures(const PoolResult &result) {
    const DrawnRun run = drawn_run(result);
    std::vector<Figure> figures;
    for (std::string &svg :
         fractions_pictures(run, "Fractions of the column and what was seen in them")) {
        figures.push_back({std::move(svg), "The run goes on below."});
    }
    figures.front().terminal = fractions_text(run);
    figures.back().caption = run_caption(result.run.is_trace);
    return figures;
}

} // namespace cospot
