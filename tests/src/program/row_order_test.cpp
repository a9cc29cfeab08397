// The same rows learned in another order are the same library: no answer may tell them apart.
#include "program_fixture.h"

#include <fmt/format.h>

#include <cmath>
#include <random>
#include <utility>

namespace cospot {
namespace {

constexpr int kOrderedCompounds = 48;
constexpr int kOrderedEluents = 4;

/// Invented compounds in two properties, which four eluents weigh differently, in runs of six
/// dates; on the first eluent only every fourth compound was measured.
std::vector<std::string> invented_values() {
    std::mt19937 engine(5);
    std::normal_distribution<double> normal;
    std::vector<std::string> rows;
    const std::vector<std::string> ends{"O", "N", "Cl", "Br", "S"};
    for (int c = 0; c < kOrderedCompounds; ++c) {
        const std::string who = fmt::format("compound {},{}{}", c,
                                            std::string(static_cast<std::size_t>(c / 5 + 1), 'C'),
                                            ends[static_cast<std::size_t>(c % 5)]);
        const double first = normal(engine);
        const double second = normal(engine);
        for (int s = 0; s < kOrderedEluents; ++s) {
            for (int run = 0; run < 6; ++run) {
                const double log_k = first + (0.2 * s - 0.4) * second + 0.02 * ((run * 7) % 5 - 2) +
                                     0.05 * normal(engine);
                if (s > 0 || c % 4 == 0) {
                    rows.push_back(fmt::format("{},eluent {},Rf,{:.2f},plate {},2026-03-0{}", who,
                                               s, 1.0 / (1.0 + std::exp(log_k)), run, run + 1));
                }
            }
        }
        for (int run = 0; run < 2; ++run) {
            rows.push_back(fmt::format("{},column,RI,{:.0f},{},", who,
                                       1000 + 150 * first + 3 * normal(engine),
                                       run == 0 ? "one" : "two"));
        }
    }
    return rows;
}

/// A call of the program with the library of that name.
class RowOrder : public ProgramTest {
protected:
    Outcome ask(const std::string &library, std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"--library", path(library + ".db")});
        std::istringstream in;
        std::ostringstream out;
        std::ostringstream err;
        const int code = run_command_line(arguments, in, out, err);
        return {code, out.str(), err.str()};
    }

    void learn(const std::string &library, const std::vector<std::string> &systems,
               const std::vector<std::string> &rows) const {
        std::string of_systems = "system,technique,stationary_phase,mobile_phase,scale\n";
        for (const std::string &row : systems) {
            of_systems += row + "\n";
        }
        std::string values = "compound,smiles,system,quantity,value,run,date\n";
        for (const std::string &row : rows) {
            values += row + "\n";
        }
        ask(library, {"init"});
        const Outcome learned =
            ask(library, {"learn", "--systems", file("s.csv", of_systems), file("v.csv", values)});
        ASSERT_EQ(learned.code, kDone) << learned.err;
    }

    RowOrder() {
        std::vector<std::string> systems;
        for (int s = 0; s < kOrderedEluents; ++s) {
            systems.push_back(
                fmt::format("eluent {},tlc,silica gel,hexane:ethyl acetate {}:1,", s, s + 1));
        }
        systems.emplace_back("column,gc,dimethylsilicone,,n-alkane");
        std::vector<std::string> rows = invented_values();
        learn("one", systems, rows);
        std::mt19937 engine(8);
        std::shuffle(rows.begin(), rows.end(), engine);
        std::reverse(systems.begin(), systems.end());
        learn("other", systems, rows);
    }

    /// Compares what both libraries say; returns what the first one says.
    std::vector<nlohmann::json> compare(const std::vector<std::string> &arguments) const {
        const auto first = ask("one", arguments).lines();
        const auto second = ask("other", arguments).lines();
        EXPECT_FALSE(first.empty());
        EXPECT_EQ(first.size(), second.size());
        for (std::size_t i = 0; i < std::min(first.size(), second.size()); ++i) {
            expect_same(first[i], second[i], "");
        }
        return first;
    }

    std::vector<nlohmann::json> compare_identify(const std::string &rows,
                                                 const std::string &further = "") const {
        std::vector<std::string> arguments{
            "--json", "identify", "--top", "200",
            file("u.csv", "sample,feature,system,quantity,value\n" + rows)};
        if (!further.empty()) {
            arguments.push_back(further);
        }
        return compare(arguments);
    }

    /// Numbers alike to 1e-9, all else to the letter, but for the time of a proof.
    static void expect_same(const nlohmann::json &a, const nlohmann::json &b,
                            const std::string &where) {
        if (a.is_number() && b.is_number()) {
            EXPECT_NEAR(a.get<double>(), b.get<double>(), 1e-9) << where;
        } else if (a.is_structured() && a.type() == b.type() && a.size() == b.size()) {
            const auto left = a.flatten();
            const auto right = b.flatten();
            for (const auto &[key, value] : left.items()) {
                if (!right.contains(key)) {
                    ADD_FAILURE() << key;
                } else if (!value.is_structured() && key.find("at_utc") == std::string::npos) {
                    expect_same(value, right[key], key);
                }
            }
        } else {
            EXPECT_EQ(a, b) << where;
        }
    }

    void compare_answers() const {
        // A lane with several spots on a plate where most candidates are transferred.
        const auto lane = compare_identify("a,1,eluent 0,Rf,0.21\na,2,eluent 0,Rf,0.37\n"
                                           "a,3,eluent 0,Rf,0.55\na,4,eluent 0,Rf,0.56\n"
                                           "a,5,eluent 0,Rf,0.81\na,6,eluent 0,Rf,0.9\n");
        bool is_transferred = false;
        for (const auto &candidate : lane.at(1)["candidates"]) {
            is_transferred =
                is_transferred || candidate.dump().find("transferred") != std::string::npos;
        }
        EXPECT_TRUE(is_transferred);
        // One spot on several eluents, of which one is new, and a peak beside.
        compare_identify("b,1,eluent 0,Rf,0.42\nb,1,eluent 1,Rf,0.37\nb,1,eluent 2,Rf,0.31\n");
        compare_identify("c,1,eluent 0,Rf,0.42\nc,1,column,RI,1010\nc,2,eluent 0,Rf,0.6\n"
                         "c,2,column,RI,1130\n");
        compare_identify("d,1,column,RI,1010\nd,2,column,RI,1060\nd,3,column,RI,1140\n");
        // A lane so full that matchings are drawn at random.
        std::string full;
        for (int i = 1; i <= 30; ++i) {
            full += fmt::format("e,{},eluent 2,Rf,{:.3f}\n", i, 0.1 + 0.025 * i);
        }
        compare_identify(full);
    }
};

TEST_F(RowOrder, AnswersDoNotDependOnTheOrderOfRows) {
    compare_answers();
}

TEST_F(RowOrder, ProofsDoNotDependOnTheOrderOfRows) {
    compare({"--json", "prove"});
    compare_answers();
}

TEST_F(RowOrder, PredictionsDoNotDependOnTheOrderOfRows) {
    compare({"--json", "predict", "CCCCCC(C)O", "--system", "eluent 0"});
}

} // namespace
} // namespace cospot
