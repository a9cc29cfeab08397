#include "learn/learn_files.h"

#include "integration/integration.h"
#include "integration/photographed_plate.h"
#include "learn/learn_column_runs.h"
#include "learn/learn_responses.h"
#include "learn/learn_rows.h"
#include "learn/system_learner.h"
#include "readers/column_run_table.h"
#include "readers/compound_table.h"
#include "readers/learn_kind.h"
#include "readers/measurement_table.h"
#include "readers/response_table.h"
#include "readers/sdf_file.h"
#include "readers/smiles_list.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <utility>

namespace cospot {

namespace {

void remark(const std::vector<std::string> &notes, const std::string &file, LearnSummary &summary) {
    for (const std::string &note : notes) {
        summary.remarks.push_back(file + ": " + note);
    }
}

/// A standard that cannot be learned, as its run has it.
std::string standard_place(const MeasurementRow &row) {
    return row.note.starts_with("lane ") ? row.note + (row.run.empty() ? "" : " of " + row.run)
                                         : row.compound;
}

/// With `is_partial`, what the library cannot learn is left out, unless nothing is left.
void learn_raw_run(const RawRun &run, bool is_partial, LearnTarget &target) {
    target.summary.remarks.insert(target.summary.remarks.end(), run.remarks.begin(),
                                  run.remarks.end());
    target.summary.is_partial |= run.is_partial;
    Faults faults;
    std::size_t count = 0;
    for (const MeasurementRow &row : run.rows) {
        try {
            target.learner.learn(row);
        } catch (const InputError &fault) {
            faults.add(fault);
            if (!is_partial || ++count == run.rows.size()) {
                continue;
            }
            target.summary.is_partial = true;
            target.summary.remarks.push_back(
                fmt::format("! {} is left out: {}", standard_place(row), fault.what()));
        }
    }
    if (!is_partial || count == run.rows.size()) {
        faults.throw_any();
    }
    if (run.ladder && !run.rows.empty()) { // else nothing of the run was learned
        target.learner.keep_ladder(run.rows.front(), *run.ladder);
    }
}

std::string name_field(const FileOptions &options) {
    for (const ColumnAlias &alias : options.aliases) {
        if (alias.column == "compound") {
            settle(alias);
            return alias.header;
        }
    }
    return "";
}

void remark_no_rows(const std::string &file, LearnSummary &summary) {
    summary.remarks.push_back(fmt::format("{}: no rows, so nothing was learned from it", file));
}

/// A table of values; what its rows leave open of their run, the command line says.
class StatedValues {
public:
    StatedValues(MeasurementTable table, const RunDetails &details)
        : table_(std::move(table)), details_(&details) {}

    [[nodiscard]] bool next(MeasurementRow &row) {
        if (!table_.next(row)) {
            return false;
        }
        const auto fill = [](std::string &stated, const std::string &of_call) {
            stated = stated.empty() ? of_call : stated;
        };
        fill(row.run, details_->run);
        fill(row.date, details_->date);
        fill(row.operator_name, details_->operator_name);
        fill(row.instrument, details_->instrument);
        fill(row.source, details_->source);
        return true;
    }
    [[nodiscard]] const std::vector<std::string> &header() const { return table_.header(); }
    [[nodiscard]] const std::vector<std::string> &fields() const { return table_.fields(); }
    [[nodiscard]] std::vector<std::string> notes() const { return table_.notes(); }

private:
    MeasurementTable table_;
    const RunDetails *details_;
};

template <typename Row, typename Source>
void learn_all(Source &&source, const std::string &file, LearnTarget &target) {
    if (learn_rows<Row>(source, target.learner, target.refused, target.progress) == 0) {
        remark_no_rows(file, target.summary);
    }
}

} // namespace

void learn_systems_file(InputFile &file, const std::vector<ColumnAlias> &aliases,
                        LearnTarget &target) {
    std::vector<std::string> notes;
    const std::vector<SystemRow> rows = read_systems(file.stream(), file.name(), &notes, aliases);
    remark(notes, file.name(), target.summary);
    learn_systems(target.database, rows, target.change, target.summary);
    if (rows.empty()) {
        remark_no_rows(file.name(), target.summary);
    }
}

void learn_file(InputFile &file, const FileOptions &options, LearnTarget &target,
                std::istream &standard_input) {
    target.learner.begin_file();
    const InputSettings &reading = options.run.reading;
    const bool is_of_run = reading.ladder_file || reading.hold_up_min;
    switch (holds_trace(file.stream())   ? LearnKind::chromatogram
            : holds_photo(file.stream()) ? LearnKind::plate
                                         : learn_kind(file, options.aliases, is_of_run)) {
    case LearnKind::measurements: {
        StatedValues values(
            {file.stream(), file.name(), options.aliases, options.quantity, reading.system},
            options.run);
        learn_all<MeasurementRow>(values, file.name(), target);
        remark(values.notes(), file.name(), target.summary);
        break;
    }
    case LearnKind::compounds: {
        CompoundTable table(file.stream(), file.name(), options.aliases);
        learn_all<CompoundRow>(table, file.name(), target);
        remark(table.notes(), file.name(), target.summary);
        break;
    }
    case LearnKind::smiles_list:
        learn_all<CompoundRow>(SmilesList(file.stream(), file.name()), file.name(), target);
        break;
    case LearnKind::sdf:
        learn_all<CompoundRow>(SdfFile(file.stream(), file.name(), name_field(options)),
                               file.name(), target);
        break;
    case LearnKind::plate:
        learn_raw_run(standards_of_plates(target.database, file.stream(), file.name(), options.run),
                      options.run.reading.form.is_partial, target);
        break;
    case LearnKind::responses: {
        const auto rows = read_responses(file.stream(), file.name(), options.aliases);
        learn_responses(target.database, rows, target.change, target.summary);
        if (rows.empty()) {
            remark_no_rows(file.name(), target.summary);
        }
        break;
    }
    case LearnKind::column_runs: {
        const ColumnRunTable table = read_column_runs(file.stream(), file.name(), options.aliases);
        learn_column_runs(target.database, table.rows, target.change, target.summary);
        remark(table.notes, file.name(), target.summary);
        if (table.rows.empty()) {
            remark_no_rows(file.name(), target.summary);
        }
        break;
    }
    case LearnKind::chromatogram:
        for (const RawRun &run : standards_of_chromatograms(
                 target.database, file.stream(), file.name(), options.run, standard_input)) {
            learn_raw_run(run, options.run.reading.form.is_partial, target);
        }
        break;
    }
}

} // namespace cospot
