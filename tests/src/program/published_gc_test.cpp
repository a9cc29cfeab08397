// identify on gas chromatography as published: indices of one laboratory or paper are learned,
// those of another are asked for.
#include "published_fixture.h"

#include <set>

namespace cospot::published {
namespace {

/// Indices on one system, as one run.
struct IndexRun {
    std::string system;
    std::vector<PublishedIndex> indices;
};

class PublishedGcTest : public PublishedTest {
protected:
    /// Learns some runs, of which each is on a system of its own, and asks for others.
    Tally ask(const std::string &systems, const std::vector<IndexRun> &library,
              const std::vector<IndexRun> &questions) const {
        std::string values;
        std::set<std::string> held;
        for (const IndexRun &run : library) {
            for (const auto &[compound, index] : run.indices) {
                values += row(compound, run.system, "RI", index, "learned");
                held.insert(compound);
            }
        }
        learn_anew(systems, values);
        std::string table = "sample,feature,system,quantity,value\n";
        std::vector<std::string> truths;
        for (const IndexRun &run : questions) {
            for (const auto &[compound, index] : run.indices) {
                table += run.system + "," + std::to_string(truths.size()) + "," + run.system +
                         ",RI," + std::to_string(index) + "\n";
                truths.push_back(held.count(compound) > 0 ? compound : "");
            }
        }
        Tally tally;
        const Outcome outcome = cospot({"--json", "identify", file("questions.csv", table)});
        EXPECT_NE(outcome.code, kBadInput) << outcome.err;
        for (const auto &feature : outcome.lines()) {
            tally.add(feature, truths.at(std::stoul(feature["feature"].get<std::string>())));
        }
        return tally;
    }
};

std::string isothermal(int celsius) {
    const std::string temperature = std::to_string(celsius) + " C";
    return "phenyl5 " + temperature + ",gc,5 % phenyl silicone,helium,n-alkane,isothermal " +
           temperature + ",\n";
}

/// The indices of one of the two laboratories, a run for each temperature.
std::vector<IndexRun> runs_of(double TwoLaboratories::*laboratory) {
    std::vector<IndexRun> runs;
    for (const TwoLaboratories &pair : kTwoLaboratories) {
        const std::string system = "phenyl5 " + std::to_string(pair.celsius) + " C";
        if (runs.empty() || runs.back().system != system) {
            runs.push_back({system, {}});
        }
        runs.back().indices.push_back({pair.compound, pair.*laboratory});
    }
    return runs;
}

const std::string kTemperatures = isothermal(80) + isothermal(100) + isothermal(120) +
                                  isothermal(140) + isothermal(160) + isothermal(180) +
                                  isothermal(200);

// boswell2012 and brehmer2023 (published_values.h), seven temperatures, 60 peaks.
TEST_F(PublishedGcTest, FirstLaboratorysLibraryNamesPeaksOfTheSecond) {
    const Tally found =
        ask(kTemperatures, runs_of(&TwoLaboratories::first), runs_of(&TwoLaboratories::second));
    EXPECT_EQ(found.listed, 60);
    EXPECT_GE(found.first, 57) << found.text();
    EXPECT_GE(found.named, 30) << found.text();
    expect_right_where_sure(found);
}

TEST_F(PublishedGcTest, SecondLaboratorysLibraryNamesPeaksOfTheFirst) {
    const Tally found =
        ask(kTemperatures, runs_of(&TwoLaboratories::second), runs_of(&TwoLaboratories::first));
    EXPECT_EQ(found.listed, 60);
    EXPECT_GE(found.first, 58) << found.text();
    EXPECT_GE(found.named, 30) << found.text();
    expect_right_where_sure(found);
}

// boswell2012, gaida2021 and karolat2010: each paper asks the library of each other. Few of its
// compounds are listed there; the others lie between them.
TEST_F(PublishedGcTest, ThreePapersNameEachOthersCompounds) {
    const std::vector<const std::vector<PublishedIndex> *> papers{&kBoswell2012, &kGaida2021,
                                                                  &kKarolat2010};
    Tally all;
    for (const auto *library : papers) {
        for (const auto *questions : papers) {
            if (library != questions) {
                all.add(ask(isothermal(100), {{"phenyl5 100 C", *library}},
                            {{"phenyl5 100 C", *questions}}));
            }
        }
    }
    EXPECT_EQ(all.listed, 10);
    EXPECT_GE(all.first, 9) << all.text();
    expect_right_where_sure(all);
}

/// The wine esters as one run.
std::vector<IndexRun> wine_esters(double MeasuredAndQuoted::*index) {
    IndexRun run{"wax", {}};
    for (const MeasuredAndQuoted &ester : kWineEsters) {
        run.indices.push_back({ester.compound, ester.*index});
    }
    return {run};
}

// wineesters2022: 11 esters, one of which was found 58 units off.
TEST_F(PublishedGcTest, MeasuredAndQuotedEsterIndicesNameEachOther) {
    const std::string wax =
        "wax,gc,polyethylene glycol,helium,n-alkane,temperature programme as published,\n";
    const auto measured = wine_esters(&MeasuredAndQuoted::measured);
    const auto quoted = wine_esters(&MeasuredAndQuoted::quoted);
    Tally all = ask(wax, quoted, measured);
    all.add(ask(wax, measured, quoted));
    EXPECT_EQ(all.listed, 22);
    EXPECT_GE(all.first, 20) << all.text();
    expect_right_where_sure(all);
}

} // namespace
} // namespace cospot::published
