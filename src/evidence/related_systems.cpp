#include "evidence/related_systems.h"

#include "library/overview.h"
#include "model/transfer/transfer.h"
#include "shared/paired_sums.h"
#include "shared/student_t.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
#include <tuple>
#include <utility>

namespace cospot {

namespace {

/// The relation is fitted to so many systems and compounds at most.
constexpr std::size_t kMostSystems = 24;
constexpr std::size_t kMostCompounds = 600;
constexpr double kNothing = std::numeric_limits<double>::quiet_NaN();

bool is_observed(const ModelledSystem &one, const std::vector<ModelledSystem> &observed) {
    return std::any_of(observed.begin(), observed.end(), [&](const ModelledSystem &other) {
        return other.system.id == one.system.id && other.quantity == one.quantity;
    });
}

/// One column of the table: a system's model, and which observed system it is (or none).
struct Column {
    const ModelledSystem *modelled;
    const matcher::SystemModel *model;
    std::ptrdiff_t observed; ///< index in the evidence; -1 for a related system
};

/// Correlation of two systems over the compounds that both hold; 0 where they are too few.
double correlation(const matcher::SystemModel &a, const matcher::SystemModel &b) {
    PairedSums sums;
    for (const matcher::CandidateDensity &one : a.candidates) {
        const matcher::CandidateDensity *other = matcher::find_candidate(b, one.compound);
        if (other != nullptr) {
            sums.add(one.location, other->location);
        }
    }
    return sums.count() >= transfer::kFewestCompounds ? sums.correlation().value_or(0.0) : 0.0;
}

/// Keeps the observed systems, and of the others those that go together best with one of them.
void keep_most_telling(std::vector<Column> &columns) {
    std::map<const Column *, double> telling;
    for (const Column &column : columns) {
        double best = column.observed >= 0 ? 2.0 : 0.0;
        for (const Column &target : columns) {
            if (column.observed < 0 && target.observed >= 0) {
                best = std::max(best, std::abs(correlation(*column.model, *target.model)));
            }
        }
        telling[&column] = best;
    }
    std::vector<const Column *> order;
    order.reserve(columns.size());
    for (const Column &column : columns) {
        if (telling.at(&column) > 0.0) {
            order.push_back(&column);
        }
    }
    std::stable_sort(order.begin(), order.end(), [&](const Column *a, const Column *b) {
        return telling.at(a) > telling.at(b);
    });
    order.resize(std::min(order.size(), kMostSystems));
    std::vector<Column> kept;
    kept.reserve(order.size());
    for (const Column *column : order) {
        kept.push_back(*column);
    }
    columns = std::move(kept);
}

/// How many of the compounds were measured on any of the systems.
std::size_t compounds_of(const std::vector<Column> &columns, std::size_t all) {
    std::vector<bool> held(all, false);
    for (const Column &column : columns) {
        for (const matcher::CandidateDensity &candidate : column.model->candidates) {
            held[candidate.compound] = true;
        }
    }
    return static_cast<std::size_t>(std::count(held.begin(), held.end(), true));
}

/// The mean values of the compounds, model scale; compounds x columns.
Eigen::MatrixXd table_of(const std::vector<Column> &columns, std::size_t compounds) {
    Eigen::MatrixXd table = Eigen::MatrixXd::Constant(static_cast<Eigen::Index>(compounds),
                                                      std::ssize(columns), kNothing);
    for (std::size_t s = 0; s < columns.size(); ++s) {
        for (const matcher::CandidateDensity &candidate : columns[s].model->candidates) {
            if (candidate.basis == matcher::Basis::measured) {
                table(static_cast<Eigen::Index>(candidate.compound), static_cast<Eigen::Index>(s)) =
                    candidate.location;
            }
        }
    }
    return table;
}

/// Of the compounds that were measured on two systems or more, an even choice: of those measured on
/// a target first.
Eigen::MatrixXd training_part(const Eigen::MatrixXd &table,
                              const std::vector<Eigen::Index> &targets) {
    std::vector<Eigen::Index> on_target;
    std::vector<Eigen::Index> elsewhere;
    for (Eigen::Index c = 0; c < table.rows(); ++c) {
        if (table.cols() - table.row(c).array().isNaN().count() > 1) {
            const bool is_on_target =
                table.row(c)(targets).array().isNaN().count() < std::ssize(targets);
            (is_on_target ? on_target : elsewhere).push_back(c);
        }
    }
    std::vector<Eigen::Index> chosen;
    for (const auto *rows : {&on_target, &elsewhere}) {
        const std::size_t used = std::min(rows->size(), kMostCompounds - chosen.size());
        for (std::size_t i = 0; i < used; ++i) {
            chosen.push_back((*rows)[i * rows->size() / used]);
        }
    }
    std::sort(chosen.begin(), chosen.end());
    return table(chosen, Eigen::all);
}

matcher::CandidateDensity transferred(Quantity quantity, std::size_t compound, std::size_t sources,
                                      const transfer::Transferred &reading) {
    matcher::CandidateDensity density;
    density.compound = compound;
    density.basis = matcher::Basis::transferred;
    density.location = reading.location;
    density.scale = reading.scale;
    density.freedom = reading.freedom;
    density.log_constant = student_t_constant(reading.freedom);
    density.mean = matcher::from_model_scale(quantity, reading.location);
    density.runs = sources;
    return density;
}

std::string described(const transfer::Target &target, const std::vector<Column> &columns,
                      std::size_t added) {
    std::string sources;
    for (std::size_t i = 0; i < std::min<std::size_t>(3, target.sources.size()); ++i) {
        const transfer::Source &source = target.sources[i];
        sources +=
            fmt::format("{}{} (correlation {:.2f}, {})", i > 0 ? ", " : "",
                        columns[static_cast<std::size_t>(source.system)].modelled->system.name,
                        source.correlation, counted(source.common, "compound"));
    }
    const Column &column = columns[static_cast<std::size_t>(target.system)];
    return fmt::format("{}: {} not measured there, compared through values on {}: {}{}",
                       column.modelled->system.name, counted(added, "compound"),
                       counted(target.sources.size(), "other system"),
                       target.sources.size() > 3 ? "above all " : "", sources);
}

std::string refused(const transfer::Target &target, const std::vector<Column> &columns) {
    std::size_t common = 0;
    for (const transfer::Source &source : target.sources) {
        common = std::max(common, source.common);
    }
    return fmt::format(
        "{}: other systems tell nothing about compounds not measured there: the values of "
        "the compounds in common ({} at most) are not correlated",
        columns[static_cast<std::size_t>(target.system)].modelled->system.name, common);
}

/// Candidates to be added to the observed systems, one list each.
using Additions = std::vector<std::vector<matcher::CandidateDensity>>;

/// Fits the relation between the columns, and what follows from it.
void transfer_among(LibraryEvidence &evidence, const std::vector<Column> &columns,
                    Additions &additions, std::vector<std::string> &notes) {
    const Eigen::MatrixXd table = table_of(columns, evidence.compound_ids.size());
    Eigen::VectorXd noise(std::ssize(columns));
    std::vector<Eigen::Index> targets;
    for (std::size_t s = 0; s < columns.size(); ++s) {
        noise[static_cast<Eigen::Index>(s)] =
            columns[s].model->spread.variance + columns[s].model->shift.variance;
        if (columns[s].observed >= 0) {
            targets.push_back(static_cast<Eigen::Index>(s));
        }
    }
    if (targets.size() == 1 && !table.col(targets.front()).array().isNaN().any()) {
        return; // all compounds were measured on the only system that is asked about
    }
    const Eigen::MatrixXd training = training_part(table, targets);
    if (training.rows() < transfer::kFewestCompounds) {
        return;
    }
    const transfer::TransferModel model = transfer::fit_transfer(training, noise, targets);
    const auto observed = [&](Eigen::Index system) {
        return static_cast<std::size_t>(columns[static_cast<std::size_t>(system)].observed);
    };
    std::map<std::size_t, std::size_t> added; // candidates by observed system
    for (Eigen::Index c = 0; c < table.rows(); ++c) {
        const auto known =
            static_cast<std::size_t>(table.cols() - table.row(c).array().isNaN().count());
        const auto compound = static_cast<std::size_t>(c);
        const transfer::TransferredCompound expected = transfer::transfer(model, table.row(c));
        matcher::ErrorCorrelation errors;
        for (const transfer::Transferred &reading : expected.readings) {
            const std::size_t system = observed(reading.system);
            additions[system].push_back(
                transferred(evidence.systems[system].quantity, compound, known, reading));
            errors.systems.push_back(system);
            ++added[system];
        }
        if (errors.systems.size() > 1) {
            errors.correlation = expected.correlation;
            evidence.knowledge.dependence.compounds[compound].push_back(std::move(errors));
        }
    }
    for (const transfer::Target &target : model.targets) {
        if (added[observed(target.system)] > 0) {
            notes.push_back(described(target, columns, added[observed(target.system)]));
        }
    }
    for (const transfer::Target &target : model.refused) {
        notes.push_back(refused(target, columns));
    }
    if (targets.size() > 1) {
        matcher::JointReadings unlisted;
        for (const Eigen::Index target : targets) {
            unlisted.systems.push_back(observed(target));
        }
        unlisted.mean = model.relation.mean(targets);
        unlisted.covariance = model.relation.covariance(targets, targets);
        unlisted.covariance.diagonal() += noise(targets);
        evidence.knowledge.dependence.unlisted.push_back(std::move(unlisted));
    }
}

/// `added` in the order of compounds.
void add(const std::vector<matcher::CandidateDensity> &added, matcher::SystemModel &model) {
    if (added.empty()) {
        return;
    }
    const auto measured = std::ssize(model.candidates);
    model.candidates.insert(model.candidates.end(), added.begin(), added.end());
    std::inplace_merge(model.candidates.begin(), model.candidates.begin() + measured,
                       model.candidates.end(),
                       [](const auto &a, const auto &b) { return a.compound < b.compound; });
    model.by_location.clear();
}

/// The systems of one kind that were not observed, and how many values all of the kind hold.
struct CountedKind {
    std::int64_t values = 0;                                        ///< counted up to one too many
    std::vector<std::pair<std::int64_t, ModelledSystem>> related{}; ///< with their values
};

/// By the kinds of the observed systems.
std::map<SystemKind, CountedKind> counted_kinds(library::Database &database,
                                                const std::vector<ModelledSystem> &observed,
                                                std::int64_t most_values) {
    std::map<SystemKind, CountedKind> kinds;
    for (const ModelledSystem &modelled : observed) {
        kinds.try_emplace(kind_of(modelled));
    }
    for (const library::System &system : library::all_systems(database)) {
        for (auto &[kind, counted] : kinds) {
            const ModelledSystem modelled{system, std::get<Quantity>(kind)};
            if (system.retired || kind_of(modelled) != kind || counted.values > most_values) {
                continue; // of too many nothing is compared, however many more there are
            }
            const std::int64_t count = library::values_up_to(database, system.id, modelled.quantity,
                                                             most_values + 1 - counted.values);
            counted.values += count;
            if (count > 0 && !is_observed(modelled, observed)) {
                counted.related.emplace_back(count, modelled);
            }
        }
    }
    return kinds;
}

std::string left_out(const SystemKind &kind, std::int64_t most_values) {
    const auto &[technique, quantity, scale] = kind;
    return fmt::format("what other {} systems tell by their {} is left out: together they hold "
                       "more than {} values, too many to compare",
                       to_text(technique), to_text(quantity), most_values);
}

} // namespace

SystemKind kind_of(const ModelledSystem &modelled) {
    std::string relative_to;
    if (modelled.quantity == Quantity::RI) {
        relative_to = modelled.system.scale;
    } else if (is_relative(modelled.quantity)) {
        relative_to = lower_ascii(modelled.system.reference);
    }
    return {modelled.system.technique, modelled.quantity, relative_to};
}

RelatedSystems related_systems(library::Database &database,
                               const std::vector<ModelledSystem> &observed,
                               std::int64_t most_values) {
    RelatedSystems result;
    std::vector<std::pair<std::int64_t, ModelledSystem>> found;
    for (auto &[kind, counted] : counted_kinds(database, observed, most_values)) {
        if (counted.values <= most_values) {
            std::move(counted.related.begin(), counted.related.end(), std::back_inserter(found));
        } else if (!counted.related.empty()) {
            result.notes.push_back(left_out(kind, most_values));
        }
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const auto &a, const auto &b) { return a.first > b.first; });
    for (auto &[count, modelled] : found) {
        result.systems.push_back(std::move(modelled));
    }
    return result;
}

std::vector<std::string>
transfer_between_systems(LibraryEvidence &evidence, const std::vector<ModelledSystem> &related,
                         const std::vector<matcher::SystemModel> &related_models) {
    std::map<SystemKind, std::vector<Column>> kinds;
    for (std::size_t i = 0; i < evidence.systems.size(); ++i) {
        kinds[kind_of(evidence.systems[i])].push_back(
            {&evidence.systems[i], &evidence.knowledge.systems[i], static_cast<std::ptrdiff_t>(i)});
    }
    for (std::size_t i = 0; i < related.size(); ++i) {
        kinds[kind_of(related[i])].push_back({&related[i], &related_models[i], -1});
    }
    std::vector<std::string> notes;
    Additions additions(evidence.systems.size());
    std::vector<std::size_t> held_in_kind(evidence.systems.size(), 0); // compounds
    for (auto &[kind, columns] : kinds) {
        const std::size_t held = compounds_of(columns, evidence.compound_ids.size());
        for (const Column &column : columns) {
            if (column.observed >= 0) {
                held_in_kind[static_cast<std::size_t>(column.observed)] = held;
            }
        }
        keep_most_telling(columns);
        if (columns.size() > 1) {
            transfer_among(evidence, columns, additions, notes);
        }
    }
    for (std::size_t i = 0; i < additions.size(); ++i) {
        matcher::SystemModel &model = evidence.knowledge.systems[i];
        add(additions[i], model);
        model.elsewhere = held_in_kind[i] - std::min(held_in_kind[i], model.candidates.size());
    }
    return notes;
}

} // namespace cospot
