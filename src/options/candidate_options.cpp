#include "options/candidate_options.h"

#include "shared/number.h"

#include <fmt/format.h>

namespace cospot {

namespace {

namespace po = boost::program_options;

} // namespace

void add_candidate_options(CommandOptions &options) {
    options.add()("prior-unlisted", po::value<double>()->default_value(0.2, "0.2"),
                  "probability, before measuring, of a compound that the library does not hold")(
        "also", po::value<std::string>(),
        "structures that the library need not hold (.smi, or a table compound, smiles): candidates "
        "too, with what is expected of them");
}

double prior_unlisted(const CommandOptions &options) {
    constexpr double smallest = 1e-6;
    const double unlisted = options.get<double>("prior-unlisted");
    if (!(unlisted >= smallest && unlisted <= 1.0 - smallest)) {
        throw bad_option("prior-unlisted", exact_text(unlisted),
                         "a probability from 0.000001 to 0.999999");
    }
    return unlisted;
}

std::size_t top_of(const CommandOptions &options) {
    const int top = options.get<int>("top");
    if (top < 1 || top > static_cast<int>(kMostListed)) {
        throw bad_usage(fmt::format("--top {}", top),
                        fmt::format("a number from 1 to {}", kMostListed));
    }
    return static_cast<std::size_t>(top);
}

std::optional<std::string> also_file(const CommandOptions &options) {
    return options.text("also");
}

} // namespace cospot
