#include "fractions/calibration.h"

#include "shared/text.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>
#include <utility>

namespace cospot::fractions {

namespace {

/// How many bands the assumed spreads count as beside those that were seen (assumed).
constexpr double kAssumedBands = 8.0;
constexpr int kMostRounds = 12;
constexpr double kSettled = 1e-6; ///< of the column's unknowns, which are logarithms
/// In so many parts runs are left out; fewer runs one by one.
constexpr std::size_t kMostParts = 20;

/// All bands of one compound at one R_F.
struct Group {
    LoadedCompound compound;
    double ln_middle = 0.0; ///< mean
    double ln_width = 0.0;  ///< mean of ln((end - start) / middle)
    double bands = 0.0;
};

LoadedCompound as_loaded(const SeenBand &band) {
    return {band.rf, kRfSpread, band.amount_mg, band.load_ml};
}

std::vector<Group> groups_of(const std::vector<SeenBand> &bands) {
    std::vector<Group> groups;
    std::vector<std::pair<std::string, double>> keys;
    for (const SeenBand &band : bands) {
        const std::pair<std::string, double> key{lower_ascii(band.compound), band.rf};
        const auto found = std::find(keys.begin(), keys.end(), key);
        const auto index = static_cast<std::size_t>(found - keys.begin());
        if (found == keys.end()) {
            keys.push_back(key);
            groups.push_back({as_loaded(band), 0.0, 0.0, 0.0});
        }
        Group &group = groups[index];
        group.bands += 1.0;
        group.ln_middle += (std::log(band.middle_ml()) - group.ln_middle) / group.bands;
        group.ln_width +=
            (std::log((band.end_ml - band.start_ml) / band.middle_ml()) - group.ln_width) /
            group.bands;
    }
    return groups;
}

double plate_k(const Group &group) {
    return 1.0 / group.compound.rf - 1.0;
}

/// Of the mean of a group's bands.
double variance_of(const ColumnBelief &column, const Group &group) {
    const OwnVariance own = own_variance(column, group.compound);
    return own.of_compound + own.of_run / group.bands;
}

/// ln of the middle of a group that is seen, less what the column gives.
double residual(const ColumnBelief &column, const Group &group) {
    return group.ln_middle - std::log(expected_band(column, group.compound).middle_ml());
}

double variance_of_column(const ColumnBelief &column, const Unknowns &slopes) {
    double sum = 0.0;
    for (std::size_t i = 0; i < kUnknowns; ++i) {
        for (std::size_t j = 0; j < kUnknowns; ++j) {
            sum += slopes[i] * column.covariance[i][j] * slopes[j];
        }
    }
    return sum;
}

double distance(const Unknowns &a, const Unknowns &b) {
    double farthest = 0.0;
    for (std::size_t i = 0; i < kUnknowns; ++i) {
        farthest = std::max(farthest, std::abs(a[i] - b[i]));
    }
    return farthest;
}

ColumnBelief located(const ColumnBelief &assumed, const std::vector<Group> &groups,
                     double scatter) {
    ColumnBelief at = assumed;
    for (int round = 0; round < kMostRounds; ++round) {
        at.scatter = scatter;
        ColumnBelief next = assumed;
        next.scatter = scatter;
        for (const Group &group : groups) {
            observe(next, at.mean, slopes_of_maximum(at.mean, plate_k(group)), residual(at, group),
                    variance_of(at, group));
        }
        const double moved = distance(at.mean, next.mean);
        at = next;
        if (moved < kSettled) {
            break;
        }
    }
    return at;
}

/// Scatter of compounds and runs in units of the assumed one: the assumed spreads count as so many
/// bands. What the column's own unknowns took up of the residuals is given back.
double scatter_of(const ColumnBelief &column, const std::vector<Group> &groups) {
    double sum = kAssumedBands;
    for (const Group &group : groups) {
        const double variance = variance_of(column, group);
        const double taken =
            variance_of_column(column, slopes_of_maximum(column.mean, plate_k(group)));
        const double left = std::max(variance - taken, variance / 4.0);
        const double rest = residual(column, group);
        sum += rest * rest / left * column.scatter * column.scatter;
    }
    return std::sqrt(sum / (kAssumedBands + static_cast<double>(groups.size())));
}

void set_width(ColumnBelief &column, const std::vector<Group> &groups) {
    double weight = 1.0 / (kColumnWidthSpread * kColumnWidthSpread);
    double sum = 0.0;
    for (const Group &group : groups) {
        const ExpectedBand band = expected_band(column, group.compound);
        const double expected = std::log((band.end_ml - band.start_ml) / band.middle_ml());
        const double of_group = 1.0 / (kBandWidthSpread * kBandWidthSpread);
        sum += of_group * (group.ln_width - expected);
        weight += of_group;
    }
    column.ln_width = sum / weight;
    column.width_spread = std::sqrt(1.0 / weight);
}

/// Each peak counts as much as what is assumed.
void set_tailing(ColumnBelief &column, const std::vector<SeenBand> &bands) {
    double sum = std::log(kTailing);
    double count = 1.0;
    for (const SeenBand &band : bands) {
        if (band.peak_ml) {
            sum += std::log((band.end_ml - *band.peak_ml) / (*band.peak_ml - band.start_ml));
            count += 1.0;
        }
    }
    column.tailing = std::exp(sum / count);
}

std::string run_of(const SeenBand &band, std::size_t index) {
    return band.run.empty() ? "\n" + std::to_string(index) : band.run;
}

} // namespace

ColumnBelief calibrated(const ColumnBelief &assumed, const std::vector<SeenBand> &bands) {
    if (bands.empty()) {
        return assumed;
    }
    const std::vector<Group> groups = groups_of(bands);
    ColumnBelief column = located(assumed, groups, 1.0);
    column = located(assumed, groups, scatter_of(column, groups));
    set_tailing(column, bands);
    set_width(column, groups);
    return column;
}

std::optional<KnownMiddle> known_middle(const std::vector<SeenBand> &bands,
                                        const std::string &compound, double rf) {
    KnownMiddle known{0.0, 0};
    double sum = 0.0;
    for (const SeenBand &band : bands) {
        if (equal_ignoring_case(band.compound, compound) && std::abs(band.rf - rf) < kSameRf) {
            sum += std::log(band.middle_ml());
            ++known.runs;
        }
    }
    if (known.runs == 0) {
        return std::nullopt;
    }
    known.volume_ml = std::exp(sum / static_cast<double>(known.runs));
    return known;
}

HoldOut held_out(const ColumnBelief &assumed, const std::vector<SeenBand> &bands) {
    std::map<std::string, std::size_t> part_of_run;
    for (std::size_t i = 0; i < bands.size(); ++i) {
        part_of_run.emplace(run_of(bands[i], i), part_of_run.size() % kMostParts);
    }
    HoldOut result;
    if (part_of_run.size() < 2) {
        return result;
    }
    for (std::size_t part = 0; part < std::min(kMostParts, part_of_run.size()); ++part) {
        std::vector<SeenBand> others;
        std::vector<SeenBand> left_out;
        for (std::size_t i = 0; i < bands.size(); ++i) {
            const bool is_left_out = part_of_run.at(run_of(bands[i], i)) == part;
            (is_left_out ? left_out : others).push_back(bands[i]);
        }
        const ColumnBelief column = calibrated(assumed, others);
        for (const SeenBand &band : left_out) {
            const ExpectedBand expected = expected_band(
                column, as_loaded(band), known_middle(others, band.compound, band.rf));
            ++result.bands;
            result.middles += expected.middle.holds(band.middle_ml()) ? 1 : 0;
            result.wholes +=
                expected.whole.holds(band.start_ml) && expected.whole.holds(band.end_ml) ? 1 : 0;
        }
    }
    return result;
}

Teaching taught_by_one_run(const ColumnBelief &column, const std::vector<LoadedCompound> &compounds,
                           std::size_t index, const std::optional<KnownMiddle> &known) {
    ColumnBelief after = column;
    for (const LoadedCompound &compound : compounds) {
        const OwnVariance own = own_variance(column, compound);
        observe(after, column.mean, slopes_of_maximum(column.mean, 1.0 / compound.rf - 1.0), 0.0,
                own.of_compound + own.of_run);
    }
    after.mean = column.mean; // the run is expected to show what is expected
    const LoadedCompound &asked = compounds.at(index);
    const KnownMiddle seen{expected_band(column, asked, known).middle_ml(),
                           known ? known->runs + 1 : 1};
    return {expected_band(column, asked, known).middle.factor(),
            expected_band(after, asked).middle.factor(),
            expected_band(after, asked, seen).middle.factor()};
}

std::size_t count_runs(const std::vector<SeenBand> &bands) {
    std::set<std::string> runs;
    for (std::size_t i = 0; i < bands.size(); ++i) {
        runs.insert(run_of(bands[i], i));
    }
    return runs.size();
}

} // namespace cospot::fractions
