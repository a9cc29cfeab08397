#include "traces/jcamp_dx.h"

#include "shared/line_reader.h"
#include "shared/text.h"
#include "traces/jcamp_table.h"
#include "traces/time_unit.h"
#include "traces/trace_points.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace cospot {

namespace {

constexpr const char *kJcamp = "a JCAMP-DX file";
constexpr std::size_t kMostBlocks = 1000;

std::string_view without_comment(std::string_view line) {
    return line.substr(0, line.find("$$"));
}

/// A label as jcamp1988 compares it: in capitals, without blanks, '-', '/' and '_'.
std::string packed_label(std::string_view label) {
    std::string packed;
    for (const char c : label) {
        if (c != ' ' && c != '\t' && c != '-' && c != '/' && c != '_') {
            packed += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
        }
    }
    return packed;
}

/// "##LABEL= text" of a line; nothing where it continues the record before.
struct LabelledText {
    std::string label;
    std::string_view text;
};

std::optional<LabelledText> labelled_text(std::string_view line) {
    const std::string_view start = trimmed(line);
    const std::size_t equals = start.find('=');
    if (!start.starts_with("##") || equals == std::string_view::npos) {
        return std::nullopt;
    }
    return LabelledText{packed_label(start.substr(2, equals - 2)),
                        trimmed(start.substr(equals + 1))};
}

/// One block while it is read, from ##TITLE= to ##END=.
struct JcampBlock {
    JcampRecords records{};
    std::optional<JcampTable> table{};
};

class JcampReader {
public:
    JcampReader(std::istream &in, const std::string &file, const TraceOptions &options)
        : lines_(in, file, kJcamp), options_(options) {
        result_.file = file;
        result_.format = "JCAMP-DX";
    }

    TraceFile read() {
        std::string line;
        while (next_line(line)) {
            const std::string_view text = without_comment(line);
            if (const auto labelled = labelled_text(text)) {
                take(*labelled);
            } else if (!blocks_.empty() && blocks_.back().table) {
                blocks_.back().table->add_line(text, lines_.line());
            }
        }
        if (!blocks_.empty()) {
            throw InputError(here(), "the end of the file inside a block", "##END=");
        }
        if (result_.traces.empty()) {
            throw InputError(here(), "no table of a chromatogram",
                             "##XYDATA= over seconds or minutes");
        }
        return std::move(result_);
    }

private:
    [[nodiscard]] Where here() const {
        return {lines_.file(), std::max<std::size_t>(1, lines_.line()), ""};
    }

    /// Texts about the sample may be in another encoding than UTF-8; numbers may not.
    bool next_line(std::string &line) {
        while (true) {
            try {
                return lines_.next(line);
            } catch (const InputError &) {
                if (!blocks_.empty() && blocks_.back().table) {
                    throw;
                }
            }
        }
    }

    void take(const LabelledText &labelled) {
        const std::string &label = labelled.label;
        if (label == "TITLE") {
            begin_block();
        }
        if (blocks_.empty()) {
            throw InputError(here(), "##" + printable(label) + "= outside a block",
                             "##TITLE= first");
        }
        end_table();
        JcampBlock &block = blocks_.back();
        if (label == "END") {
            blocks_.pop_back();
        } else if (label == "XYDATA" || label == "XYPOINTS") {
            check_abscissa_unit(block);
            block.table.emplace(labelled.text, block.records, here());
        } else if (label == "NTUPLES") {
            throw InputError(here(), "##NTUPLES= (spectra over time)",
                             "one signal over time: ##XYDATA=");
        } else {
            keep(block, label, labelled.text);
        }
    }

    void begin_block() {
        if (++block_count_ > kMostBlocks) {
            throw InputError(here(), "more than 1000 blocks", "a file of chromatograms");
        }
        end_table();
        blocks_.emplace_back();
    }

    /// Only what is asked for later, so that a file holds no more memory than its tables.
    void keep(JcampBlock &block, const std::string &label, std::string_view text) {
        constexpr std::array<std::string_view, 17> kept{
            "TITLE",     "DATATYPE", "XUNITS",  "YUNITS",
            "XFACTOR",   "YFACTOR",  "FIRSTX",  "LASTX",
            "FIRSTY",    "DELTAX",   "NPOINTS", "LONGDATE",
            "DATE",      "TIME",     "NAMES",   "SAMPLEDESCRIPTION",
            "SAMPLENAME"};
        constexpr std::size_t longest = 1000;
        for (const std::string_view each : kept) {
            if (each == label) {
                block.records[label] = {std::string(text.substr(0, longest)), lines_.line()};
            }
        }
    }

    static std::string text_in(const JcampBlock &block, std::string_view label) {
        const auto record = block.records.find(label);
        return record == block.records.end() ? "" : record->second.text;
    }

    void check_abscissa_unit(const JcampBlock &block) const {
        const std::string unit = text_in(block, "XUNITS");
        if (!unit.empty() && !minutes_in(unit)) {
            throw InputError({lines_.file(), block.records.find("XUNITS")->second.line, "XUNITS"},
                             in_quotes(unit), "seconds or minutes: a chromatogram, no spectrum");
        }
    }

    /// The table of the open block, if it has one, has come to its end.
    void end_table() {
        if (blocks_.empty() || !blocks_.back().table) {
            return;
        }
        JcampBlock &block = blocks_.back();
        block.table->finish(lines_.line());
        const Where where{lines_.file(), block.table->line(), ""};
        const double minutes = minutes_per_unit(text_in(block, "XUNITS"), options_, where);
        Trace trace{.name = text_in(block, "TITLE"),
                    .kind = lower_ascii(text_in(block, "DATATYPE")),
                    .signal_unit = text_in(block, "YUNITS"),
                    .time_min = block.table->abscissas(),
                    .signal = block.table->ordinates()};
        for (double &time : trace.time_min) {
            time *= minutes;
        }
        take_sample(block);
        block.table.reset();
        add_trace(result_, std::move(trace), where);
    }

    void take_sample(const JcampBlock &block) {
        for (const char *label : {"SAMPLENAME", "NAMES", "SAMPLEDESCRIPTION", "TITLE"}) {
            if (result_.sample.empty()) {
                result_.sample = text_in(block, label);
            }
        }
        if (result_.injected_at.empty()) {
            const std::string date = text_in(block, "LONGDATE");
            result_.injected_at =
                date.empty() ? text_in(block, "DATE") + " " + text_in(block, "TIME") : date;
            result_.injected_at = std::string(trimmed(result_.injected_at));
        }
    }

    LineReader lines_;
    TraceOptions options_;
    TraceFile result_;
    std::vector<JcampBlock> blocks_; ///< those that are open, the innermost last
    std::size_t block_count_ = 0;
};

} // namespace

bool is_jcamp_dx(std::string_view first_bytes) {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (first_bytes.starts_with(byte_order_mark)) {
        first_bytes.remove_prefix(byte_order_mark.size());
    }
    while (!first_bytes.empty()) {
        const std::size_t end = std::min(first_bytes.find_first_of("\r\n"), first_bytes.size());
        const std::string_view line = trimmed(without_comment(first_bytes.substr(0, end)));
        if (!line.empty()) {
            const auto labelled = labelled_text(line);
            return labelled && labelled->label == "TITLE";
        }
        first_bytes.remove_prefix(std::min(end + 1, first_bytes.size()));
    }
    return false;
}

TraceFile read_jcamp_dx(std::istream &in, const std::string &file, const TraceOptions &options) {
    return JcampReader(in, file, options).read();
}

} // namespace cospot
