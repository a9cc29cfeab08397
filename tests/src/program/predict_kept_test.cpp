// What the library keeps for predictions may never be seen in an answer.
#include "library/database.h"
#include "library_state.h"
#include "program_fixture.h"

#include "../../library/unprivileged.h"

#include <fmt/format.h>

#include <cmath>

namespace cospot {
namespace {

/// 36 invented alkyl compounds in three eluents and on a GC column. Of every fifth the strong
/// eluent is lacking, every seventh is on the column only.
class KeptPredictions : public ProgramTest {
protected:
    KeptPredictions() {
        std::string values = "compound,smiles,system,quantity,value,run\n";
        const std::vector<std::pair<std::string, double>> ends{
            {"O", 1.1}, {"Cl", -0.2}, {"C=O", 0.4}, {"N", 1.4}, {"OC(C)=O", 0.3}, {"C#N", 0.6}};
        for (int i = 0; i < 36; ++i) {
            const auto &[end, polarity] = ends[static_cast<std::size_t>(i) % 6];
            const int carbons = 2 + i / 6;
            const std::string who = fmt::format(
                "c{},{}{}", i, std::string(static_cast<std::size_t>(carbons), 'C'), end);
            const double wobble = 0.05 * std::sin(7.0 * i);
            values += fmt::format("{},gc,RI,{:.1f},r\n", who,
                                  400.0 + 100.0 * carbons + 120.0 * polarity + 60.0 * wobble);
            for (int eluent = 0; eluent < 3 && i % 7 != 0; ++eluent) {
                const double r_m = polarity - 0.06 * carbons - 0.4 * eluent + wobble;
                if (eluent == 0 || i % 5 != 0) {
                    values += fmt::format("{},e{},Rf,{:.3f},r\n", who, eluent,
                                          1.0 / (1.0 + std::pow(10.0, r_m)));
                }
            }
        }
        const std::string systems =
            file("systems.csv", "system,technique,stationary_phase,mobile_phase,scale\n"
                                "e0,tlc,silica gel,hexane:ethyl acetate 9:1,\n"
                                "e1,tlc,silica gel,hexane:ethyl acetate 6:1,\n"
                                "e2,tlc,silica gel,hexane:ethyl acetate 3:1,\n"
                                "gc,gc,dimethylsilicone,helium,n-alkane\n");
        const Outcome learned = cospot({"learn", "--systems", systems, file("values.csv", values)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    [[nodiscard]] std::string answer() const {
        const Outcome predicted = cospot({"--json", "predict", "CCCCC(C)O", "c5", "c7", "c14"});
        EXPECT_EQ(predicted.code, kDone) << predicted.err;
        const Outcome column = cospot(
            {"--json", "column", "--system", "e2", "--compounds", "c5,c7,c10", "--target", "c10"});
        EXPECT_NE(column.code, kBadInput) << column.err;
        return predicted.out + column.out;
    }

    [[nodiscard]] std::int64_t rows_in(const std::string &table) const {
        return number_in(folder_ / "library.db", "SELECT count(*) FROM " + table);
    }

    void execute(const std::string &sql) const {
        library::Database(folder_ / "library.db", library::Access::write).execute(sql);
    }
};

TEST_F(KeptPredictions, KeptPredictionsGiveTheSameAnswersAsFreshOnes) {
    EXPECT_EQ(rows_in("prediction_fit"), 0);
    const std::string before = answer();
    EXPECT_HOLDS(before, "predicted");
    EXPECT_HOLDS(before, "transferred");
    EXPECT_EQ(rows_in("prediction_fit"), 2); // of the eluents, of the column
    EXPECT_EQ(rows_in("structure_features"), 36);
    EXPECT_EQ(answer(), before);
    execute("DELETE FROM prediction_fit");
    EXPECT_EQ(answer(), before) << "with kept features only";
    execute("DELETE FROM structure_features");
    EXPECT_EQ(answer(), before) << "with kept fits only";
    EXPECT_EQ(integrity_of(folder_ / "library.db"), "ok");
}

TEST_F(KeptPredictions, DoNotOutliveAChange) {
    const std::string before = answer();
    ASSERT_EQ(cospot({"learn", file("more.csv", "compound,smiles,system,quantity,value,run\n"
                                                "more,CCC(C)CO,e2,Rf,0.31,s\n"
                                                "more,CCC(C)CO,gc,RI,735,s\n")})
                  .code,
              kDone);
    EXPECT_EQ(rows_in("prediction_fit"), 0);
    const std::string after = answer();
    EXPECT_NE(after, before);
    execute("DELETE FROM prediction_fit; DELETE FROM structure_features");
    EXPECT_EQ(answer(), after);
}

TEST_F(KeptPredictions, DamagedKeptPredictionsAreNotUsed) {
    const std::string before = answer();
    const std::vector<std::string> damages{
        "UPDATE prediction_fit SET bytes = x''",
        "UPDATE prediction_fit SET bytes = substr(bytes, 1, length(bytes) - 1)",
        "UPDATE prediction_fit SET bytes = zeroblob(length(bytes))",
        "UPDATE prediction_fit SET bytes = (SELECT bytes FROM prediction_fit ORDER BY id DESC)",
        "UPDATE structure_features SET bytes = zeroblob(length(bytes))",
        "UPDATE structure_features SET bytes = substr(bytes, 1, 20)",
        "UPDATE structure_features SET bytes = "
        "(SELECT bytes FROM structure_features WHERE compound_id = 7)"};
    for (const std::string &damage : damages) {
        execute(damage);
        EXPECT_EQ(answer(), before) << damage;
    }
}

TEST_F(KeptPredictions, AReadOnlyLibraryGivesTheSameAnswer) {
    std::string read_only;
    {
        const library::ReadOnlyFolder folder(folder_ / "");
        read_only = answer();
    }
    EXPECT_EQ(rows_in("prediction_fit"), 0);
    EXPECT_EQ(answer(), read_only);
    EXPECT_GT(rows_in("prediction_fit"), 0);
}

TEST_F(KeptPredictions, AReportLeavesTheLibraryUnchanged) {
    const std::string before = bytes_of(folder_ / "library.db");
    for (const std::vector<std::string> &arguments :
         {std::vector<std::string>{"predict", "CCCCC(C)O"},
          {"column", "--system", "e2", "--compounds", "c5,c7"}}) {
        std::vector<std::string> with_report = arguments;
        with_report.insert(with_report.end(),
                           {"--report", (folder_ / (arguments.front() + ".html")).string()});
        const Outcome outcome = cospot(with_report);
        EXPECT_NE(outcome.code, kBadInput) << outcome.err;
        EXPECT_EQ(bytes_of(folder_ / "library.db"), before) << arguments.front();
    }
}

TEST_F(KeptPredictions, AnswersDoNotWaitForAnotherWriter) {
    library::Database writer(folder_ / "library.db", library::Access::write);
    std::string meanwhile;
    {
        const library::Transaction other(writer);
        meanwhile = answer(); // SQLite would wait for a minute
    }
    EXPECT_EQ(rows_in("prediction_fit"), 0);
    EXPECT_EQ(answer(), meanwhile);
}

} // namespace
} // namespace cospot
