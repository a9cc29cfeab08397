#include "prove/prove_document.h"

#include "document/caution.h"
#include "document/cells.h"
#include "drawing/reliability_picture.h"
#include "prove/proof_words.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

Cell proof_verdict(const ProofResult &proof) {
    if (is_any_too_sure(proof)) {
        return {"too sure", 2.0, Emphasis::alarm};
    }
    return verdict(proof.corrected).count < kFewStatements ? Cell{"too few to judge", 1.0}
                                                           : Cell{"not too sure", 0.0};
}

/// "2 questions asked: 1 not too sure, 1 with too few statements of 80 % or more to judge."
std::string overall_verdict(const std::vector<ProvedQuestion> &proofs) {
    std::size_t sure = 0;
    std::size_t few = 0;
    for (const ProvedQuestion &proof : proofs) {
        const bool is_sure = is_any_too_sure(proof.result);
        sure += is_sure ? 1 : 0;
        few += !is_sure && verdict(proof.result.corrected).count < kFewStatements ? 1 : 0;
    }
    std::string text;
    const auto add = [&](std::size_t count, const char *words) {
        if (count > 0) {
            text += fmt::format("{}{} {}", text.empty() ? "" : ", ", count, words);
        }
    };
    add(sure, "too sure");
    add(proofs.size() - sure - few, "not too sure");
    add(few, "with too few statements of 80 % or more to judge");
    return fmt::format("{} asked: {}.", counted(proofs.size(), "question"), text);
}

Cell share_cell(double share) {
    return {fmt::format("{:.0f}", 100 * share), share};
}

Cell percent_cell(double share) {
    return {fmt::format("{:.1f}", 100 * share), share};
}

std::string proof_anchor(std::size_t position) {
    return fmt::format("question-{}", position);
}

Table questions_table(const std::vector<ProvedQuestion> &proofs) {
    Table table{.label = "All questions",
                .caption = "Stated and right: of statements with 80 % or more",
                .columns = {{"Question"},
                            {"Values", true},
                            {"First right %", true},
                            {"Stated %", true},
                            {"Right %", true},
                            {"n", true},
                            {"Verdict"}}};
    for (std::size_t i = 0; i < proofs.size(); ++i) {
        const ProofResult &proof = proofs[i].result;
        const ReliabilityBin sure = verdict(proof.corrected);
        table.rows.push_back({{{subject_words(proofs[i]), {}, Emphasis::none, proof_anchor(i + 1)},
                               count_cell(proof.questions),
                               share_cell(proof.first_right),
                               sure.count > 0 ? share_cell(sure.stated) : Cell{"-"},
                               sure.count > 0 ? share_cell(sure.right) : Cell{"-"},
                               count_cell(sure.count),
                               proof_verdict(proof)}});
    }
    return table;
}

std::vector<DrawnBin> drawn_bins(const Reliability &reliability) {
    std::vector<DrawnBin> bins;
    for (const ReliabilityBin &bin : reliability.bins) {
        if (bin.count > 0) {
            bins.push_back({bin.stated, bin.right, bin.count});
        }
    }
    return bins;
}

/// What all figures share is said below the first.
Figure reliability_of(const ProvedQuestion &proved, bool is_first) {
    const ProofResult &proof = proved.result;
    return {
        reliability_picture(drawn_bins(proof.as_stated), drawn_bins(proof.corrected),
                            "Reliability, " + subject_words(proved)),
        !is_first
            ? ""
            : "Rings: as stated. Filled squares: after the correction, with two standard errors of "
              "the share. On the diagonal, what is called 70 % probable is right 70 times in 100; "
              "below it, less often. The bars (on a square-root scale) count the corrected "
              "statements."};
}

void add_bin(Row &row, const ReliabilityBin &bin) {
    if (bin.count == 0) {
        row.cells.resize(row.cells.size() + 3);
        return;
    }
    row.cells.push_back(percent_cell(bin.stated));
    row.cells.push_back(percent_cell(bin.right));
    row.cells.push_back(count_cell(bin.count));
}

/// Tenths of the stated probability; without its right half where nothing is corrected.
Table bins_table(const ProofResult &proof) {
    Table table{.label = "Reliability",
                .caption = "What was stated, and how often it was right, %",
                .columns = {{"From-to"}, {"Stated", true}, {"Right", true}, {"n", true}}};
    if (proof.is_corrected) {
        table.columns.insert(table.columns.end(),
                             {{"Corrected", true}, {"Right", true}, {"n", true}});
    }
    for (std::size_t tenth = 0; tenth < proof.as_stated.bins.size(); ++tenth) {
        const ReliabilityBin &before = proof.as_stated.bins[tenth];
        const ReliabilityBin &after = proof.corrected.bins[tenth];
        if (before.count + after.count == 0) {
            continue;
        }
        Row row{{{fmt::format("{}-{}", 10 * tenth, 10 * (tenth + 1))}}};
        add_bin(row, before);
        if (proof.is_corrected) {
            add_bin(row, after);
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

Table measures_table(const ProofResult &proof) {
    Table table{.label = "Measures over all questions",
                .columns = {{"Measure"},
                            {"As stated", true},
                            {proof.is_corrected ? "Corrected" : "From now on", true}}};
    const auto add = [&](const std::string &name, double before, double after) {
        table.rows.push_back({{{name}, number_cell(before, 3), number_cell(after, 3)}});
    };
    add("Calibration error", proof.as_stated.calibration_error, proof.corrected.calibration_error);
    add("Log loss", proof.as_stated.log_loss, proof.corrected.log_loss);
    add("Candidate sets of 95 % that hold the truth", proof.as_stated.set_coverage,
        proof.corrected.set_coverage);
    for (const BasisResult &one : proof.by_basis) {
        add(fmt::format("... of {}", compound_words(one.basis)), one.as_stated.set_coverage,
            one.corrected.set_coverage);
    }
    add("Compounds in a set, mean", proof.as_stated.set_length, proof.corrected.set_length);
    return table;
}

Section proof_section(const ProvedQuestion &proved, std::size_t position) {
    const ProofResult &proof = proved.result;
    Section section{subject_words(proved), proof_anchor(position), {}, {}};
    if (is_any_too_sure(proof)) {
        section.badge = proof_verdict(proof);
    }
    List verdicts;
    for (const BasisResult &one : proof.by_basis) {
        verdicts.items.push_back(verdict_sentence(one));
    }
    verdicts.items.push_back(verdict_sentence(proof.absent_compounds));
    verdicts.items.push_back(verdict_sentence(proof.corrected));
    section.blocks = {
        Paragraph{fmt::format("{} {}, {} of compounds left out altogether. The first candidate was "
                              "right for {:.0f} % of the others.",
                              asked_sentence(proved.question), counted(proof.questions, "value"),
                              proof.absent, 100 * proof.first_right)},
        std::move(verdicts), Paragraph{correction_sentence(proof)},
        Beside{{reliability_of(proved, position == 1), bins_table(proof)}}, measures_table(proof)};
    return section;
}

/// One row a bin.
DataTable proofs_data(const std::vector<ProvedQuestion> &proofs) {
    DataTable data{{"technique", "several_systems", "question", "systems", "probabilities",
                    "stated", "right", "n"}};
    for (const ProvedQuestion &proof : proofs) {
        for (const auto &[which, reliability] : {std::pair{"as_stated", &proof.result.as_stated},
                                                 std::pair{"corrected", &proof.result.corrected}}) {
            for (const DrawnBin &bin : drawn_bins(*reliability)) {
                data.rows.push_back({std::string(to_text(proof.technique)), proof.systems > 1,
                                     std::string(library::to_text(proof.question)),
                                     static_cast<std::int64_t>(proof.systems), std::string(which),
                                     bin.stated, bin.right, static_cast<std::int64_t>(bin.count)});
            }
        }
    }
    return data;
}

} // namespace

Document prove_document(const LibraryProofs &proofs) {
    const bool is_any = !proofs.proved.empty();
    Document document{
        .title = "How far this library can be trusted",
        .lead = "How often is what it calls probable right? Its own values are left out and "
                "asked for.",
        .blocks = {Paragraph{is_any ? overall_verdict(proofs.proved) : nothing_to_prove(),
                             Paragraph::Role::verdict}},
        .cautions = {std::string(kRetentionIsNoProof)},
        .data = proofs_data(proofs.proved)};
    if (proofs.proved.size() > 1) {
        document.blocks.emplace_back(questions_table(proofs.proved));
    }
    for (std::size_t i = 0; i < proofs.proved.size(); ++i) {
        document.blocks.emplace_back(proof_section(proofs.proved[i], i + 1));
    }
    if (!proofs.untried.empty()) {
        List untried;
        for (const UntriedQuestion &one : proofs.untried) {
            untried.items.push_back(untried_sentence(one));
        }
        document.blocks.emplace_back(Section{"Not tried", "", {}, {std::move(untried)}});
    }
    if (is_any) {
        document.blocks.emplace_back(Section{
            "What this does not show",
            "",
            {},
            {Paragraph{"It holds for samples like the library's own standards: another bottle, "
                       "column or laboratory scatters more."}}});
    }
    return document;
}

} // namespace cospot
