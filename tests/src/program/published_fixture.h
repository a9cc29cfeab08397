#pragma once

#include "program_fixture.h"
#include "published_structures.h"
#include "published_values.h"

#include <filesystem>

namespace cospot::published {

/// What the program stated about features whose identity is known from a publication.
struct Tally {
    int listed = 0;   ///< features whose compound the library holds
    int first = 0;    ///< of these, with that compound before all others
    int sure = 0;     ///< statements above 0.9, "unlisted" among them
    int wrong = 0;    ///< of these, not so
    int named = 0;    ///< statements above 0.9 that name a compound
    int misnamed = 0; ///< of these, not so
    std::string mistakes;

    /// `truth` is empty where the library does not hold the compound.
    void add(const nlohmann::json &feature, const std::string &truth) {
        std::string likeliest; // empty: unlisted
        double probability = feature["unlisted"];
        const auto &candidates = feature["candidates"];
        if (!truth.empty()) {
            ++listed;
            first += !candidates.empty() && candidates[0]["compound"] == truth ? 1 : 0;
        }
        if (!candidates.empty() && candidates[0]["probability"] > probability) {
            likeliest = candidates[0]["compound"];
            probability = candidates[0]["probability"];
        }
        if (probability > 0.9) {
            ++sure;
            named += likeliest.empty() ? 0 : 1;
            if (likeliest != truth) {
                ++wrong;
                misnamed += likeliest.empty() ? 0 : 1;
                mistakes += "\n  " + words(likeliest) + " at " + std::to_string(probability) +
                            " is " + words(truth);
            }
        }
    }

    void add(const Tally &other) {
        listed += other.listed;
        first += other.first;
        sure += other.sure;
        wrong += other.wrong;
        named += other.named;
        misnamed += other.misnamed;
        mistakes += other.mistakes;
    }

    [[nodiscard]] std::string text() const {
        return std::to_string(first) + " of " + std::to_string(listed) + " first, " +
               std::to_string(sure) + " stated above 0.9, " + std::to_string(wrong) +
               " of them wrong; " + std::to_string(named) + " names among them, " +
               std::to_string(misnamed) + " wrong" + mistakes;
    }

private:
    static std::string words(const std::string &compound) {
        return compound.empty() ? "unlisted" : compound;
    }
};

/// A test that learns published values and asks about others.
class PublishedTest : public ProgramTest {
protected:
    /// A row of the table that `learn` reads, with the compound's structure.
    static std::string row(const std::string &compound, const std::string &system,
                           const std::string &quantity, double value, const std::string &run) {
        return '"' + compound + "\"," + kStructures.at(compound) + "," + system + "," + quantity +
               "," + std::to_string(value) + "," + run + "\n";
    }

    /// Puts an empty library in the place of the present one and learns `systems` and `values`
    /// (rows without their headers).
    void learn_anew(const std::string &systems, const std::string &values) const {
        for (const char *ending : {"", "-wal", "-shm", "-journal"}) {
            std::filesystem::remove(path("library.db") + ending);
        }
        ASSERT_EQ(cospot({"init"}).code, kDone);
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("systems.csv",
                         "system,technique,stationary_phase,mobile_phase,scale,programme,note\n" +
                             systems),
                    file("values.csv", "compound,smiles,system,quantity,value,run\n" + values)});
        ASSERT_EQ(learned.code, kDone) << learned.err;
    }
};

/// Of what is stated above 0.9 at most a tenth may be wrong, and of the names among it, too.
inline void expect_right_where_sure(const Tally &found) {
    EXPECT_LE(10 * found.wrong, found.sure) << found.text();
    EXPECT_LE(10 * found.misnamed, found.named) << found.text();
}

} // namespace cospot::published
