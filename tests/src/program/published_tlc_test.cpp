// identify on standard systems of thin-layer chromatography as published, each with its four
// reference substances (published_values.h).
#include "published_fixture.h"

#include <cmath>

namespace cospot::published {
namespace {

constexpr double kFront = 80.0; // mm

/// The R_F of a plate on which every R_M = log10((1 - R_F) / R_F) is larger by `shift`.
double distorted(double rf, double shift) {
    const double r_m = std::log10((1.0 - rf) / rf) + shift;
    return 1.0 / (1.0 + std::pow(10.0, r_m));
}

/// A row of a plate, in a lane of the same name.
std::string spot(const std::string &label, const std::string &name, double rf,
                 const std::string &role) {
    return label + ',' + label + ',' + name + ',' + std::to_string(kFront * rf) + ',' +
           std::to_string(kFront) + ',' + role + "\n";
}

class PublishedTlcTest : public PublishedTest {
protected:
    /// Learns some references of a system at their published R_F.
    void learn(const StandardSystem &system, const std::vector<Reference> &references) const {
        std::string values;
        for (const auto &[compound, hrf] : references) {
            values += row(compound, system.name, "Rf", hrf / 100.0, "as published");
        }
        learn_anew(system.name + ",tlc,silica gel," + system.mobile_phase + ",,," + system.note +
                       "\n",
                   values);
    }

    /// The answers about the sample spots of a plate, without its header.
    std::vector<nlohmann::json> identify(const StandardSystem &system,
                                         const std::string &plate) const {
        const Outcome outcome =
            cospot({"--json", "identify", "--system", system.name,
                    file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n" + plate)});
        EXPECT_NE(outcome.code, kBadInput) << outcome.err;
        return outcome.lines();
    }
};

/// The middle of the widest gap between neighbouring references: where an invented compound that
/// the library does not hold is farthest from all of them.
double between_references(const StandardSystem &system) {
    double width = 0.0;
    double middle = 0.0;
    for (std::size_t next = 1; next < system.references.size(); ++next) {
        const double low = system.references[next - 1].hrf / 100.0;
        const double high = system.references[next].hrf / 100.0;
        if (high - low > width) {
            width = high - low;
            middle = 0.5 * (low + high);
        }
    }
    return middle;
}

/// The standards of a distorted plate.
std::string standards_of(const std::vector<Reference> &references, double shift) {
    std::string rows;
    for (const auto &[compound, hrf] : references) {
        rows += spot(compound, "1", distorted(hrf / 100.0, shift), "standard");
    }
    return rows;
}

/// How many of some spots were judged rightly, and what was said of the others.
struct Count {
    int asked = 0;
    int right = 0;
    std::string others;

    void add(bool is_right, const nlohmann::json &feature, const std::string &what) {
        ++asked;
        right += is_right ? 1 : 0;
        if (!is_right) {
            const auto &likeliest = feature["candidates"].at(0);
            others += "\n  " + what + ": " + likeliest["compound"].get<std::string>() + " at " +
                      likeliest["probability"].dump() + ", unlisted at " +
                      feature["unlisted"].dump();
        }
    }
};

std::ostream &operator<<(std::ostream &out, const Count &count) {
    return out << count.right << " of " << count.asked << " rightly" << count.others;
}

/// One compound counts as named where it has at least three quarters of the probability.
bool names(const nlohmann::json &feature, const std::string &compound) {
    const auto &candidates = feature["candidates"];
    return !candidates.empty() && candidates[0]["compound"] == compound &&
           candidates[0]["probability"] >= 0.75;
}

/// No compound is named where "unlisted" is likelier than each.
bool names_none(const nlohmann::json &feature) {
    const auto &candidates = feature["candidates"];
    return candidates.empty() || candidates[0]["probability"] < feature["unlisted"];
}

// All four references stand on the plate as standards, and everything on it runs lower or higher
// than published. A sample of one of them follows, which runs exactly as far as its standard, with
// an invented compound in the widest gap, 9 to 13 hR_F away from all of them.
TEST_F(PublishedTlcTest, OnADistortedPlateAReferenceIsNamedAndAnotherCompoundIsNot) {
    Count references;
    Count others;
    for (const StandardSystem &system : kStandardSystems) {
        ASSERT_NO_FATAL_FAILURE(learn(system, system.references));
        for (const double shift : {-0.1, 0.1}) {
            for (const auto &[compound, hrf] : system.references) {
                const auto features = identify(
                    system, standards_of(system.references, shift) +
                                spot("sample", "1", distorted(hrf / 100.0, shift), "sample") +
                                spot("sample", "2", distorted(between_references(system), shift),
                                     "sample"));
                ASSERT_EQ(features.size(), 2U);
                const std::string where = compound + " in " + system.name;
                references.add(names(features[0], compound), features[0], where);
                others.add(names_none(features[1]), features[1], "another one beside " + where);
            }
        }
    }
    EXPECT_EQ(references.asked, 48);
    EXPECT_EQ(references.right, 48) << references;
    EXPECT_EQ(others.right, 48) << others;
}

// The other compound has a published R_F here: it is the second or third reference, left out of
// library and standards, 14 to 26 hR_F away from the others.
TEST_F(PublishedTlcTest, AReferenceThatTheLibraryDoesNotHoldIsNotNamed) {
    Count count;
    for (const StandardSystem &system : kStandardSystems) {
        for (const std::size_t left_out : {1U, 2U}) {
            std::vector<Reference> held = system.references;
            const Reference other = held[left_out];
            held.erase(held.begin() + static_cast<std::ptrdiff_t>(left_out));
            ASSERT_NO_FATAL_FAILURE(learn(system, held));
            for (const double shift : {-0.1, 0.1}) {
                const auto features = identify(
                    system, standards_of(held, shift) +
                                spot("sample", "1", distorted(other.hrf / 100.0, shift), "sample"));
                ASSERT_EQ(features.size(), 1U);
                count.add(names_none(features[0]), features[0],
                          other.compound + " in " + system.name);
            }
        }
    }
    EXPECT_EQ(count.asked, 24);
    EXPECT_EQ(count.right, 24) << count;
}

// Without standards: each reference comes first for its published R_F, and all pairs are told
// apart.
TEST_F(PublishedTlcTest, EachSystemTellsItsFourReferencesApart) {
    Count count;
    for (const StandardSystem &system : kStandardSystems) {
        ASSERT_NO_FATAL_FAILURE(learn(system, system.references));
        for (const auto &[compound, hrf] : system.references) {
            const auto features = identify(system, spot("sample", "1", hrf / 100.0, "sample"));
            ASSERT_EQ(features.size(), 1U);
            count.add(names(features[0], compound), features[0], compound + " in " + system.name);
        }
        const auto advice = cospot({"--json", "advise", "--all"}).lines().at(0);
        EXPECT_EQ(advice["alone"][0]["discriminating_power"], 1.0) << system.name << advice;
    }
    EXPECT_EQ(count.asked, 24);
    EXPECT_EQ(count.right, 24) << count;
}

} // namespace
} // namespace cospot::published
