#include "model/matcher/ranking.h"
#include "quantities/plate.h"

#include <cstdio>
#include <vector>

int main() {
    using namespace cospot;
    // Two compounds, two runs each; the spot at 20 mm of 50 mm is the first.
    const matcher::Knowledge knowledge{
        {matcher::fit_system(
            Technique::tlc, Quantity::Rf,
            {{0, 1, true, 0.40}, {0, 2, true, 0.41}, {1, 1, true, 0.70}, {1, 2, true, 0.71}})},
        {}};
    const std::vector<matcher::Observation> observations{
        {0, quantities::retardation_factor(20.0, 50.0), 0.01}};
    const matcher::Ranking ranking = matcher::rank_candidates(
        observations, knowledge, matcher::nearby_candidates(knowledge), {});
    std::printf("installed matcher: compound %zu with probability %.2f\n",
                ranking.candidates[0].compound, ranking.candidates[0].probability);
    return ranking.candidates[0].compound == 0 ? 0 : 1;
}
