#include "model/transfer/relation.h"

#include "shared/paired_sums.h"
#include "shared/robust.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <vector>

namespace cospot::transfer {

namespace {

constexpr int kMostRounds = 100;        ///< ten to thirty do; a stop for odd tables
constexpr double kSettled = 5e-4;       ///< change of a correlation in a round; far below its error
constexpr double kFreedom = 5.0;        ///< of the Student t: one odd compound bends no relation
constexpr double kPriorCompounds = 1.0; ///< weight of "systems go together as the others do"
constexpr double kSmallestVariance = 1e-9;
constexpr double kFarOut = 4.0; ///< in deviations; farther counts as so far at the start
constexpr double kHighestCorrelation = 0.999; ///< that is believed at the start
constexpr double kWeightOfTypical = 5.0;      ///< in compounds (assumed)
/// Below it the error of a correlation is as large as itself.
constexpr double kFewestForCorrelation = 5.0;
constexpr Eigen::Index kFewestForRelation = 3; ///< compounds

std::vector<Eigen::Index> measured_in(const Eigen::VectorXd &values) {
    std::vector<Eigen::Index> systems;
    for (Eigen::Index s = 0; s < values.size(); ++s) {
        if (!std::isnan(values[s])) {
            systems.push_back(s);
        }
    }
    return systems;
}

/// Middle and deviation of the values of a system; of values more than half of which are equal, the
/// plain deviation.
struct Location {
    double middle = 0.0;
    double deviation = std::sqrt(kSmallestVariance);
};

Location location_of(const Eigen::VectorXd &column) {
    std::vector<double> known;
    for (const double value : column) {
        if (!std::isnan(value)) {
            known.push_back(value);
        }
    }
    Location location;
    if (known.empty()) {
        return location;
    }
    location.middle = upper_median(known);
    double robust = deviation_about_median(known);
    if (robust <= 0.0) {
        double squares = 0.0;
        for (const double value : known) {
            squares += (value - location.middle) * (value - location.middle);
        }
        robust = std::sqrt(squares / static_cast<double>(known.size()));
    }
    location.deviation = std::max(robust, location.deviation);
    return location;
}

/// The values in deviations from their middle, mistyped ones drawn in.
Eigen::MatrixXd standardised(const Eigen::MatrixXd &values,
                             const std::vector<Location> &locations) {
    Eigen::MatrixXd result = values;
    for (Eigen::Index s = 0; s < values.cols(); ++s) {
        const Location &location = locations[static_cast<std::size_t>(s)];
        for (double &value : result.col(s)) {
            if (!std::isnan(value)) {
                value =
                    std::clamp((value - location.middle) / location.deviation, -kFarOut, kFarOut);
            }
        }
    }
    return result;
}

struct Pair {
    double correlation = 0.0;
    double count = 0.0; ///< 0: too few compounds, or one system does not vary
};

/// Over the compounds that were measured on both; NaN counts as not measured.
Pair correlated(const Eigen::VectorXd &a, const Eigen::VectorXd &b) {
    PairedSums sums;
    for (Eigen::Index c = 0; c < a.size(); ++c) {
        if (!std::isnan(a[c]) && !std::isnan(b[c])) {
            sums.add(a[c], b[c]);
        }
    }
    const auto correlation = sums.correlation();
    return correlation && sums.count() >= kFewestForCorrelation ? Pair{*correlation, sums.count()}
                                                                : Pair{};
}

double on_z_scale(double correlation) {
    return std::atanh(std::clamp(correlation, -kHighestCorrelation, kHighestCorrelation));
}

/// Raises the eigenvalues of a correlation matrix that pairs of different compounds made negative.
Eigen::MatrixXd made_positive(const Eigen::MatrixXd &correlation) {
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(correlation);
    const Eigen::VectorXd raised = solver.eigenvalues().cwiseMax(1e-3);
    Eigen::MatrixXd result =
        solver.eigenvectors() * raised.asDiagonal() * solver.eigenvectors().transpose();
    const Eigen::VectorXd scale = result.diagonal().cwiseSqrt().cwiseInverse();
    return scale.asDiagonal() * result * scale.asDiagonal();
}

/// The relation as the pairs of systems say, each by itself.
Relation pairwise(const Eigen::MatrixXd &values, const Eigen::VectorXd &noise) {
    const Eigen::Index systems = values.cols();
    Relation relation{Eigen::VectorXd(systems), Eigen::MatrixXd(systems, systems), noise, 0.0};
    std::vector<Location> locations;
    Eigen::VectorXd deviation(systems);
    for (Eigen::Index s = 0; s < systems; ++s) {
        locations.push_back(location_of(values.col(s)));
        relation.mean[s] = locations.back().middle;
        deviation[s] = locations.back().deviation;
    }
    const Eigen::MatrixXd comparable = standardised(values, locations);
    std::map<std::pair<Eigen::Index, Eigen::Index>, Pair> pairs;
    double sum = 0.0;
    double count = 0.0;
    for (Eigen::Index a = 0; a < systems; ++a) {
        for (Eigen::Index b = a + 1; b < systems; ++b) {
            const Pair pair = correlated(comparable.col(a), comparable.col(b));
            pairs[{a, b}] = pair;
            sum += pair.count * on_z_scale(pair.correlation);
            count += pair.count;
        }
    }
    // Five compounds that contradict it are set against what pairs of systems show.
    relation.typical_correlation = std::tanh(sum / (count + kWeightOfTypical));
    Eigen::MatrixXd correlation = Eigen::MatrixXd::Identity(systems, systems);
    for (const auto &[at, pair] : pairs) {
        correlation(at.first, at.second) = correlation(at.second, at.first) =
            shrunken_correlation(pair.correlation, pair.count, relation.typical_correlation);
    }
    relation.covariance =
        deviation.asDiagonal() * made_positive(correlation) * deviation.asDiagonal();
    return relation;
}

/// Compounds that were measured on the same systems.
struct Pattern {
    std::vector<Eigen::Index> systems;
    Eigen::MatrixXd values; ///< compounds x systems of the pattern
};

std::vector<Pattern> patterns_of(const Eigen::MatrixXd &values) {
    std::map<std::vector<Eigen::Index>, std::vector<Eigen::Index>> rows;
    for (Eigen::Index c = 0; c < values.rows(); ++c) {
        auto known = measured_in(values.row(c));
        if (!known.empty()) {
            rows[std::move(known)].push_back(c);
        }
    }
    std::vector<Pattern> patterns;
    for (const auto &[systems, compounds] : rows) {
        patterns.push_back({systems, values(compounds, systems)});
    }
    return patterns;
}

/// What values on some systems say of all.
struct Gain {
    Eigen::LLT<Eigen::MatrixXd> factor; ///< of the covariance of the readings
    Eigen::MatrixXd slopes;             ///< known x all
    Eigen::MatrixXd rest;               ///< covariance of what stays unknown
};

Gain gain_of(const Relation &relation, const std::vector<Eigen::Index> &known) {
    Eigen::MatrixXd among = relation.covariance(known, known);
    among.diagonal() += relation.noise(known);
    Gain gain{Eigen::LLT<Eigen::MatrixXd>(among), {}, {}};
    const Eigen::MatrixXd cross = relation.covariance(known, Eigen::all);
    gain.slopes = gain.factor.solve(cross);
    gain.rest = relation.covariance - cross.transpose() * gain.slopes;
    return gain;
}

/// Sums over the compounds that the next estimate is made of.
struct Sums {
    Eigen::VectorXd values;
    Eigen::MatrixXd squares;
    Eigen::MatrixXd rest;
    double weight = 0.0;
    double count = 0.0;
};

void add(const Pattern &pattern, const Relation &relation, Sums &sums) {
    const Gain gain = gain_of(relation, pattern.systems);
    const Eigen::MatrixXd deviations =
        pattern.values.rowwise() - relation.mean(pattern.systems).transpose();
    const Eigen::MatrixXd solved = gain.factor.solve(deviations.transpose());
    const Eigen::VectorXd distances =
        (deviations.transpose().array() * solved.array()).colwise().sum();
    const Eigen::VectorXd weights =
        (kFreedom + static_cast<double>(pattern.systems.size())) / (kFreedom + distances.array());
    const Eigen::MatrixXd expected =
        (deviations * gain.slopes).rowwise() + relation.mean.transpose();
    const auto compounds = static_cast<double>(pattern.values.rows());
    sums.values += expected.transpose() * weights;
    sums.squares += expected.transpose() * weights.asDiagonal() * expected;
    sums.rest += compounds * gain.rest;
    sums.weight += weights.sum();
    sums.count += compounds;
}

Sums sums_over(const std::vector<Pattern> &patterns, const Relation &relation) {
    const Eigen::Index systems = relation.mean.size();
    Sums sums{Eigen::VectorXd::Zero(systems), Eigen::MatrixXd::Zero(systems, systems),
              Eigen::MatrixXd::Zero(systems, systems)};
    for (const Pattern &pattern : patterns) {
        add(pattern, relation, sums);
    }
    return sums;
}

/// Systems that go together as those of the table do on the whole, of these deviations.
Eigen::MatrixXd typical_covariance(const Eigen::VectorXd &deviations, double correlation) {
    Eigen::MatrixXd covariance = correlation * deviations * deviations.transpose();
    covariance.diagonal() = deviations.cwiseAbs2();
    return covariance;
}

/// The patterns of the compounds that were measured on the system and elsewhere.
std::vector<Pattern> patterns_with(const Eigen::MatrixXd &values, Eigen::Index system) {
    std::vector<Pattern> patterns = patterns_of(values);
    patterns.erase(std::remove_if(patterns.begin(), patterns.end(),
                                  [&](const Pattern &pattern) {
                                      return pattern.systems.size() < 2 ||
                                             !std::binary_search(pattern.systems.begin(),
                                                                 pattern.systems.end(), system);
                                  }),
                   patterns.end());
    return patterns;
}

Eigen::Index compounds_in(const std::vector<Pattern> &patterns) {
    Eigen::Index count = 0;
    for (const Pattern &pattern : patterns) {
        count += pattern.values.rows();
    }
    return count;
}

/// The true value on one system from those on the others: level + slopes * others, with variance
/// `rest` around it.
struct Line {
    Eigen::VectorXd slopes;
    double level = 0.0;
    double rest = 0.0;
};

/// The line as the compounds of the patterns show it when their values are as the relation says.
Line line_to(Eigen::Index system, const std::vector<Eigen::Index> &others, const Relation &relation,
             const std::vector<Pattern> &patterns) {
    const Sums sums = sums_over(patterns, relation);
    const Eigen::VectorXd mean = sums.values / sums.weight;
    const Eigen::VectorXd deviations = relation.covariance.diagonal().cwiseSqrt();
    const Eigen::MatrixXd moments =
        sums.squares - sums.weight * mean * mean.transpose() + sums.rest +
        kPriorCompounds * typical_covariance(deviations, relation.typical_correlation);
    Line line;
    const Eigen::VectorXd cross = moments(others, system);
    line.slopes = moments(others, others).llt().solve(cross);
    line.rest = std::max((moments(system, system) - line.slopes.dot(cross)) /
                             (sums.count + kPriorCompounds),
                         kSmallestVariance);
    line.level = mean[system] - line.slopes.dot(mean(others));
    return line;
}

} // namespace

double shrunken_correlation(double correlation, double count, double typical) {
    return std::tanh((count * on_z_scale(correlation) + kWeightOfTypical * on_z_scale(typical)) /
                     (count + kWeightOfTypical));
}

Relation fit_relation(const Eigen::MatrixXd &values, const Eigen::VectorXd &noise) {
    Relation relation = pairwise(values, noise);
    const std::vector<Pattern> patterns = patterns_of(values);
    for (int round = 0; round < kMostRounds && !patterns.empty(); ++round) {
        Sums sums = sums_over(patterns, relation);
        const Eigen::VectorXd deviations = relation.covariance.diagonal().cwiseSqrt();
        const Eigen::MatrixXd before = relation.covariance;
        relation.mean = sums.values / sums.weight;
        sums.squares -= sums.weight * relation.mean * relation.mean.transpose();
        relation.covariance =
            (sums.squares + sums.rest +
             kPriorCompounds * typical_covariance(deviations, relation.typical_correlation)) /
            (sums.count + kPriorCompounds);
        relation.covariance.diagonal() = relation.covariance.diagonal().cwiseMax(kSmallestVariance);
        const Eigen::MatrixXd change = deviations.cwiseInverse().asDiagonal() *
                                       (relation.covariance - before) *
                                       deviations.cwiseInverse().asDiagonal();
        if (change.cwiseAbs().maxCoeff() < kSettled) {
            break;
        }
    }
    return relation;
}

Relation sharpened(const Relation &relation, const Eigen::MatrixXd &values, Eigen::Index system) {
    constexpr int most_rounds = 25;
    constexpr double settled = 1e-3;
    const std::vector<Pattern> patterns = patterns_with(values, system);
    std::vector<Eigen::Index> others(static_cast<std::size_t>(values.cols()));
    std::iota(others.begin(), others.end(), Eigen::Index{0});
    others.erase(others.begin() + system);
    Relation result = relation;
    if (compounds_in(patterns) < kFewestForRelation) {
        return result;
    }
    for (int round = 0; round < most_rounds; ++round) {
        const Line line = line_to(system, others, result, patterns);
        const Eigen::VectorXd before = result.covariance(others, system);
        const Eigen::VectorXd cross = result.covariance(others, others) * line.slopes;
        result.covariance(others, system) = cross;
        result.covariance(system, others) = cross.transpose();
        result.covariance(system, system) = line.rest + line.slopes.dot(cross);
        result.mean[system] = line.level + line.slopes.dot(result.mean(others));
        if ((cross - before).norm() < settled * cross.norm()) {
            break;
        }
    }
    return result;
}

Expectation expect(const Relation &relation, const Eigen::VectorXd &values) {
    const auto known = measured_in(values);
    if (known.empty()) {
        return {relation.mean, relation.covariance};
    }
    const Gain gain = gain_of(relation, known);
    const Eigen::VectorXd deviations = values(known) - relation.mean(known);
    return {relation.mean + gain.slopes.transpose() * deviations, gain.rest};
}

} // namespace cospot::transfer
