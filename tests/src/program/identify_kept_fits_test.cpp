// What is kept of fits, and that only a part of it is read, may never be seen in an answer.
#include "library/database.h"
#include "program_fixture.h"

#include <fmt/format.h>

#include <cmath>
#include <random>

namespace cospot {
namespace {

/// 400 alkyl compounds, all on two columns: k from 0.1 to 60, and indices; three runs that differ.
class KeptFits : public ProgramTest {
protected:
    KeptFits() {
        std::mt19937 engine(3);
        std::uniform_real_distribution<double> place(0.0, 1.0);
        std::normal_distribution<double> scatter(0.0, 1.0);
        std::string rows = "compound,smiles,system,quantity,value,run\n";
        for (int i = 0; i < 400; ++i) {
            const char *const ends[] = {"O", "Cl", "Br", "N", "S"};
            const std::string who = fmt::format(
                "c{},{}{}", i, std::string(1 + static_cast<std::size_t>(i) / 5, 'C'), ends[i % 5]);
            const bool is_eicosanol = i == 95; // C20H42O, with a known place
            const double log_k = is_eicosanol ? std::log10(5.0) : -1.0 + 2.78 * place(engine);
            const double index = is_eicosanol ? 1500.0 : 500.0 + 2500.0 * place(engine);
            for (int run = 0; run < 3; ++run) {
                rows += fmt::format("{},lc,k,{:.4f},l{}\n{},gc,RI,{:.1f},g{}\n", who,
                                    std::pow(10.0, log_k + 0.01 * (run + scatter(engine))), run,
                                    who, index + run + scatter(engine), run);
            }
        }
        const std::string systems =
            file("systems.csv", "system,technique,scale\nlc,hplc,\ngc,gc,n-alkane\n");
        const Outcome learned = cospot({"learn", "--systems", systems, file("values.csv", rows)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    [[nodiscard]] std::string answers(const std::string &table) const {
        return cospot({"identify", table}).out + cospot({"identify", "--explain", table}).out +
               cospot({"--json", "identify", table}).out;
    }

    /// Compares answers with fits and without; returns them.
    std::string compare(const std::string &header, const std::string &rows) const {
        const std::string table = file("unknowns.csv", header + "\n" + rows);
        const std::string kept = answers(table);
        library::Database(folder_ / "library.db", library::Access::write)
            .execute("DELETE FROM fit");
        EXPECT_EQ(answers(table), kept) << rows;
        cospot({"learn",
                file("again.csv", "compound,smiles,system,quantity,value,run\n"
                                  "c0,CO,other,Rf,0.5,r\n"),
                "--create-systems"}); // keeps the fits again
        return kept;
    }
};

TEST_F(KeptFits, KeptFitsGiveTheSameAnswersAsFreshOnes) {
    const std::string header = "sample,feature,system,quantity,value,uncertainty";
    EXPECT_HOLDS(compare(header, "s,1,gc,RI,1500,0.5\n"), "400 compounds with RI");
    compare(header, "s,1,gc,RI,90,0.5\ns,2,gc,RI,9000,0.5\n");
    compare(header, "s,1,lc,k,20,0.02\n");
    compare(header, "s,1,lc,k,0.12,0.01\n");
    compare(header, "s,1,lc,k,5,0.02\ns,2,lc,k,5.2,0.02\ns,3,lc,k,7,0.02\ns,4,lc,k,6,0.02\n");
    compare(header, "s,1,gc,RI,1500,0.5\ns,1,lc,k,5,0.1\n");
    compare(header, "s,1,gc,RI,1500,0.5\nt,1,lc,k,5,0.1\n");
}

TEST_F(KeptFits, KeptFitsGiveTheSameAnswersWithFurtherEvidence) {
    const std::string header = "sample,feature,system,quantity,value,formula,molar_mass";
    compare(header, "s,1,gc,RI,1500,C20H42O,\n");
    compare(header, "s,1,gc,RI,1500,,298\ns,2,gc,RI,800,,\n");
}

TEST_F(KeptFits, AnAnswerDoesNotDependOnOtherSamples) {
    const std::string header = "sample,feature,system,quantity,value,uncertainty,formula\n";
    const std::string one = "s,1,lc,k,5,0.02,C20H42O\n";
    const auto alone = cospot({"--json", "identify", file("one.csv", header + one)}).lines();
    const auto beside =
        cospot({"--json", "identify",
                file("more.csv", header + one + "t,1,lc,k,0.2,0.001,\n" + "u,1,lc,k,50,0.1,\n")})
            .lines();
    ASSERT_EQ(alone.size(), 1U);
    ASSERT_EQ(beside.size(), 3U);
    EXPECT_EQ(alone[0], beside[0]);
}

} // namespace
} // namespace cospot
