#include "document/progress.h"
#include "evidence/library_evidence.h"
#include "identification/explanation.h"
#include "identification/explanation_words.h"
#include "identification/feature_json.h"
#include "identification/identification.h"
#include "identification/loaded_features.h"
#include "identification/proof_corrections.h"
#include "identify/identify_document.h"
#include "identify/identify_files.h"
#include "identify/identify_options.h"
#include "identify/identify_result.h"
#include "library/names.h"
#include "library/overview.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "readers/input_file.h"
#include "readers/prior_table.h"
#include "report/presentation.h"
#include "report/trace.h"
#include "shared/parallel.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <ostream>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

/// The weights of suspected compounds, by index in the evidence; 1 for all others.
std::vector<double> weights_in(const std::string &name, const std::vector<ColumnAlias> &aliases,
                               const LibraryEvidence &evidence, library::Database &database,
                               std::istream &standard_input) {
    std::vector<double> weights(compound_count(evidence), 1.0);
    InputFile file(name, standard_input);
    for (const PriorWeight &weight : read_prior(file.stream(), file.name(), aliases)) {
        const auto compound = compound_named(database, weight.compound, weight.where);
        if (const auto index = index_of_compound(evidence, compound.id)) {
            weights[*index] = weight.weight;
        }
    }
    return weights;
}

/// On which systems compounds differ before measuring.
void add_run_count_notes(const LibraryEvidence &evidence, std::vector<std::string> &notes) {
    for (std::size_t i = 0; i < evidence.systems.size(); ++i) {
        if (evidence.knowledge.systems[i].run_counts.do_tell()) {
            notes.push_back(fmt::format("{}: what was seen in more of the library's runs counts as "
                                        "likelier before measuring (--prior sets your own weights)",
                                        evidence.systems[i].system.name));
        }
    }
}

/// What holds for all features: the systems, how they relate, how the input was read.
std::vector<std::string> common_notes(const FeatureSet &set, const LibraryEvidence &evidence,
                                      const IdentificationOptions &how) {
    std::vector<std::string> notes;
    for (std::size_t i = 0; i < evidence.systems.size(); ++i) {
        const library::System &system = evidence.systems[i].system;
        std::string conditions;
        for (const std::string *text :
             {&system.stationary_phase, &system.mobile_phase, &system.programme}) {
            conditions += text->empty() ? "" : ", " + *text;
        }
        notes.push_back(fmt::format(
            "{} ({}{}): {} with {}", system.name, to_text(system.technique), conditions,
            counted(matcher::candidate_count(evidence.knowledge.systems[i]), "compound"),
            to_text(evidence.systems[i].quantity)));
    }
    if (how.prior.feature.weights.empty()) {
        add_run_count_notes(evidence, notes);
    }
    notes.insert(notes.end(), evidence.notes.begin(), evidence.notes.end());
    notes.insert(notes.end(), set.notes.begin(), set.notes.end());
    return notes;
}

std::string prior_note(const IdentificationOptions &how) {
    return fmt::format("Probability of a compound outside the library before measuring: {:g}",
                       how.prior.feature.unlisted);
}

std::vector<ExplanationWords> explained(const SampleIdentification &sample,
                                        const LibraryEvidence &evidence,
                                        const IdentificationOptions &how,
                                        MeasuredSystems &measured) {
    const std::vector<const Feature *> &features = sample.asked;
    const auto explanations = explain_sample(features, sample, evidence, how, measured);
    std::vector<ExplanationWords> words;
    for (std::size_t i = 0; i < features.size(); ++i) {
        words.push_back(
            explanation_words(explanations[i], *features[i], sample.features[i], features));
    }
    return words;
}

/// Answers for the features of a file, run by run.
class Answering {
public:
    Answering(const LibraryEvidence &evidence, library::Database &database,
              const IdentificationOptions &how, Presentation &presentation, bool explains)
        : evidence_(&evidence), how_(&how), presentation_(&presentation), measured_(database),
          compounds_(evidence, database), explains_(explains || presentation.needs_json()) {}

    /// Several threads answer for runs at once; the database is left to the compounds meanwhile.
    void answer(const std::vector<Feature> &all, std::ostream &messages) {
        constexpr std::size_t at_once = 32;
        Progress progress(messages, "features", all.size());
        const auto together = runs_of(all);
        for (std::size_t first = 0; first < together.size(); first += at_once) {
            std::vector<RunIdentification> runs(std::min(at_once, together.size() - first));
            for_each_in_parallel(
                runs.size(),
                [&](std::size_t i) {
                    runs[i] = identify_run(together[first + i], *evidence_, compounds_, *how_);
                },
                1);
            for (RunIdentification &run : runs) {
                progress.clear();
                take(run);
                for (const SampleIdentification &sample : run.samples) {
                    progress.advance(sample.asked.size());
                }
            }
        }
    }

    [[nodiscard]] const std::vector<AnsweredFeature> &features() const { return features_; }
    [[nodiscard]] const std::vector<std::string> &notes() const { return notes_; }
    [[nodiscard]] bool needs_attention() const { return needs_attention_; }

private:
    void take(RunIdentification &run) {
        needs_attention_ |= run.needs_attention;
        add_notes(run.notes, run.samples.front().asked.front()->run);
        for (SampleIdentification &sample : run.samples) {
            auto words = explains_ ? explained(sample, *evidence_, *how_, measured_)
                                   : std::vector<ExplanationWords>(sample.asked.size());
            for (std::size_t i = 0; i < sample.asked.size(); ++i) {
                if (presentation_->needs_json()) {
                    presentation_->add(feature_json(*sample.asked[i], sample.features[i], words[i],
                                                    run.places, run.notes));
                }
                if (presentation_->needs_document()) {
                    features_.push_back(
                        {sample.asked[i], std::move(sample.features[i]), std::move(words[i])});
                }
            }
            add_notes(sample.notes, sample.asked.front()->sample);
        }
    }

    /// What holds for a run or a sample, with its name where it has one.
    void add_notes(const std::vector<std::string> &notes, const std::string &name) {
        for (const std::string &note : notes) {
            notes_.push_back(name.empty() ? note : with_name(name, note));
        }
    }

    const LibraryEvidence *evidence_;
    const IdentificationOptions *how_;
    Presentation *presentation_;
    MeasuredSystems measured_;
    KnownCompounds compounds_;
    bool explains_;
    std::vector<AnsweredFeature> features_; ///< where a document is wanted
    std::vector<std::string> notes_;
    bool needs_attention_ = false;
};

} // namespace

int run_identify(const Invocation &invocation) {
    CommandOptions options = identify_options();
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const IdentifyOptions asked = read_identify_options(options, invocation);
    Presentation presentation(invocation, options);
    library::Database database = open_library(invocation, library::Access::read);
    TracedInputs inputs(
        presentation.has_report()
            ? input_names(options, {"ladder", "second-column", "second-ladder", "prior", "also"})
            : std::vector<std::string>{},
        invocation.in);
    std::istream &standard_input = inputs.standard_input();
    FeatureSet set = features_of_files(asked, database, standard_input);
    // Weights may be of any compound.
    const Extent extent = asked.prior ? Extent::all : Extent::within_reach;
    auto [features, evidence] =
        load_features(database, std::move(set), extent, asked.also, standard_input);

    IdentificationOptions how;
    how.prior.feature.unlisted = asked.prior_unlisted;
    how.prior.learn_unlisted = asked.learns_unlisted;
    if (asked.prior) {
        how.prior.feature.weights =
            weights_in(*asked.prior, asked.input.form.aliases, evidence, database, standard_input);
    }
    how.search = asked.search;
    how.top = asked.top;
    how.fills_set = presentation.needs_json() || asked.explains;
    if (asked.is_recalibrated) {
        apply_proofs(how, features.features, evidence, database, features.notes);
    }

    std::vector<std::string> notes = common_notes(features, evidence, how);
    const std::vector<std::string> &lead = features.lead;
    if (invocation.json) { // which has no document
        notes.insert(notes.begin(), lead.begin(), lead.end());
    }
    Answering answering(evidence, database, how, presentation, asked.explains);
    answering.answer(features.features, invocation.err);
    notes.insert(notes.end(), answering.notes().begin(), answering.notes().end());
    notes.push_back(prior_note(how));
    if (asked.explains) {
        notes.emplace_back(library::kIndependentRuns);
    }
    presentation.finish(
        notes, [&] { return identify_document(answering.features(), asked.has_sheets, lead); },
        [&] { return trace_of("identify", invocation, inputs.traces()); }, asked.explains);
    const bool is_none_read =
        std::all_of(features.features.begin(), features.features.end(),
                    [](const Feature &feature) { return feature.observations.empty(); });
    return is_none_read || answering.needs_attention() || needs_attention(features, evidence)
               ? kNeedsAttention
               : kDone;
}

} // namespace cospot
