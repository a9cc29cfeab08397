#include "traces/mzml.h"

#include "shared/text.h"
#include "traces/mzml_array.h"
#include "traces/mzml_spectra.h"
#include "traces/time_unit.h"
#include "traces/trace_points.h"
#include "traces/xml_reader.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cstdint>
#include <map>
#include <optional>
#include <utility>

namespace cospot {

namespace {

constexpr const char *kMzml = "mzML of version 1.1";
constexpr std::size_t kMostGroupParams = 1000;

/// Terms for kinds of chromatograms (psims).
struct ChromatogramTerm {
    std::string_view accession;
    std::string_view kind;
    bool holds_peaks;
};

constexpr std::array kChromatogramTerms{
    ChromatogramTerm{"MS:1000235", "total ion current", true},
    ChromatogramTerm{"MS:1000628", "base peak", true},
    ChromatogramTerm{"MS:1000627", "selected ion current", true},
    ChromatogramTerm{"MS:1001472", "selected ion monitoring", true},
    ChromatogramTerm{"MS:1001473", "selected reaction monitoring", true},
    ChromatogramTerm{"MS:1000811", "electromagnetic radiation", true},
    ChromatogramTerm{"MS:1000812", "absorption", true},
    ChromatogramTerm{"MS:1000813", "emission", true},
    ChromatogramTerm{"MS:1002715", "temperature", false},
    ChromatogramTerm{"MS:1003019", "pressure", false},
    ChromatogramTerm{"MS:1003020", "flow rate", false},
};

struct Chromatogram {
    Where where;
    Trace trace;
    std::size_t length = 0; ///< of its arrays, unless they say another
    std::optional<MzmlArray> time{};
    std::optional<MzmlArray> signal{};

    void take(const MzmlParam &param) {
        for (const ChromatogramTerm &term : kChromatogramTerms) {
            if (term.accession == param.accession) {
                trace.kind = term.kind;
                trace.holds_peaks = term.holds_peaks;
            }
        }
    }
};

std::size_t array_length(std::string_view text, const Where &where) {
    std::uint64_t length = 0;
    const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), length);
    if (error != std::errc() || stop != text.data() + text.size()) {
        throw InputError(where, "the array length " + in_quotes(text), "a whole number");
    }
    return length;
}

/// Follows the elements of a document.
class MzmlReader {
public:
    MzmlReader(const std::string &file, const TraceOptions &options)
        : options_(options), spectra_(file, options) {
        result_.file = file;
        result_.format = "mzML 1.1";
    }

    void start(std::string_view name, const XmlAttributes &attributes, std::size_t line) {
        const Where where{result_.file, line, ""};
        path_.emplace_back(name);
        check_root(attributes, where);
        if (!has_version_) {
            return; // nothing in it is known to mean what it seems to
        }
        if (name == "cvParam") {
            take({.accession = std::string(attributes["accession"]),
                  .name = std::string(attributes["name"]),
                  .value = std::string(attributes["value"]),
                  .unit_accession = std::string(attributes["unitAccession"]),
                  .unit_name = std::string(attributes["unitName"])});
        } else if (name == "referenceableParamGroup") {
            group_ = attributes["id"];
        } else if (name == "referenceableParamGroupRef") {
            take_group(std::string(attributes["ref"]));
        } else if (name == "sample" && result_.sample.empty()) {
            result_.sample = attributes["name"];
        } else if (name == "run") {
            result_.injected_at = attributes["startTimeStamp"];
        } else if (name == "chromatogram") {
            chromatogram_.emplace(
                Chromatogram{.where = where,
                             .trace = {.name = std::string(attributes["id"])},
                             .length = array_length(attributes["defaultArrayLength"], where)});
        } else if (name == "spectrum") {
            spectrum_.emplace(MzmlSpectrum{
                .where = where, .length = array_length(attributes["defaultArrayLength"], where)});
        } else if (name == "scan") {
            ++scans_;
        } else if (name == "binaryDataArray") {
            start_array(attributes["arrayLength"], where);
        }
    }

    void text(std::string_view text) {
        if (!array_ || path_.back() != "binary" || !is_wanted(*array_)) {
            return;
        }
        try {
            array_->append(text);
        } catch (const InputError &fault) {
            forgive(fault);
            array_.reset();
        }
    }

    void end(std::string_view name) {
        path_.pop_back();
        if (name == "binaryDataArray" && array_) {
            keep_array(std::move(*array_));
            array_.reset();
        } else if (name == "chromatogram" && chromatogram_) {
            end_chromatogram(std::move(*chromatogram_));
            chromatogram_.reset();
        } else if (name == "spectrum" && spectrum_) {
            spectra_.add(*spectrum_);
            spectrum_.reset();
            scans_ = 0;
        }
    }

    TraceFile take_result() && {
        if (empty_ > 0) {
            result_.notes.push_back(counted(empty_, "chromatogram") + " without points left out");
        }
        if (result_.traces.empty()) {
            std::move(spectra_).add_traces_to(result_);
        }
        if (result_.traces.empty()) {
            throw InputError({result_.file, 0, "chromatogramList"},
                             "neither a chromatogram with points nor spectra of MS level 1",
                             "one of them");
        }
        return std::move(result_);
    }

private:
    void check_root(const XmlAttributes &attributes, const Where &where) {
        const std::string &name = path_.back();
        const bool is_root = path_.size() == 1;
        if (is_root && name != "mzML" && name != "indexedmzML") {
            throw InputError(where, "XML of another kind: " + in_quotes(name),
                             std::string(kMzml) + " (convert the file to it)");
        }
        if (name == "mzML" && (is_root || path_.size() == 2)) {
            const std::string_view version = attributes["version"];
            if (version != "1.1" && !version.starts_with("1.1.")) {
                throw InputError(where,
                                 version.empty() ? "mzML without its version"
                                                 : "mzML of version " + in_quotes(version),
                                 std::string(kMzml) + " (convert the file to it: drafts and "
                                                      "other versions mean other things)");
            }
            has_version_ = true;
        }
    }

    /// A term belongs to the element around it.
    void take(const MzmlParam &param) {
        if (path_.size() < 2) {
            return;
        }
        const std::string &owner = path_[path_.size() - 2];
        if (owner == "referenceableParamGroup") {
            std::vector<MzmlParam> &group = groups_[group_];
            if (group.size() == kMostGroupParams) {
                throw InputError({result_.file, 0, "referenceableParamGroup"},
                                 fmt::format("a group of more than {} terms", kMostGroupParams),
                                 "a smaller one");
            }
            group.push_back(param);
        } else if (owner == "binaryDataArray" && array_) {
            array_->take(param);
        } else if (owner == "chromatogram" && chromatogram_) {
            chromatogram_->take(param);
        } else if (owner == "spectrum" && spectrum_) {
            spectrum_->take(param);
        } else if (owner == "scan" && spectrum_ && scans_ == 1 && param.accession == "MS:1000016") {
            spectrum_->scan_time = param;
        }
    }

    /// Groups hold no groups: one that refers to itself would never end.
    void take_group(const std::string &id) {
        const auto group = groups_.find(id);
        const bool is_inside_group =
            path_.size() >= 2 && path_[path_.size() - 2] == "referenceableParamGroup";
        if (group == groups_.end() || is_inside_group) {
            return;
        }
        for (const MzmlParam &param : group->second) {
            take(param);
        }
    }

    void start_array(std::string_view own_length, const Where &where) {
        array_.reset();
        if (!chromatogram_ && !spectrum_) {
            return;
        }
        const std::size_t length = !own_length.empty() ? array_length(own_length, where)
                                   : chromatogram_     ? chromatogram_->length
                                                       : spectrum_->length;
        try {
            array_.emplace(length, where);
        } catch (const InputError &fault) {
            forgive(fault);
        }
    }

    /// Spectra that cannot be read are no fault of a file with chromatograms.
    void forgive(const InputError &fault) {
        if (chromatogram_ || !spectrum_) {
            throw InputError(fault);
        }
        spectra_.keep_fault(fault);
    }

    [[nodiscard]] bool is_wanted(const MzmlArray &array) const {
        using Holds = MzmlArray::Holds;
        if (chromatogram_) {
            return array.holds() == Holds::time || array.holds() == Holds::signal ||
                   array.holds() == Holds::pump;
        }
        return spectrum_ && array.holds() == Holds::signal && spectrum_->needs_signal();
    }

    void keep_array(MzmlArray array) {
        using Holds = MzmlArray::Holds;
        if (spectrum_ && array.holds() == Holds::wavelength) {
            spectrum_->is_light = true;
        }
        if (!is_wanted(array)) {
            return;
        }
        std::optional<MzmlArray> &place = !chromatogram_                 ? spectrum_->signal
                                          : array.holds() == Holds::time ? chromatogram_->time
                                                                         : chromatogram_->signal;
        if (!place) {
            place.emplace(std::move(array));
        }
    }

    void end_chromatogram(Chromatogram chromatogram) {
        if (chromatogram.signal && chromatogram.signal->holds() == MzmlArray::Holds::pump) {
            chromatogram.trace.holds_peaks = false;
        }
        const bool holds_peaks = chromatogram.trace.holds_peaks;
        const std::string name = chromatogram.trace.name;
        try {
            add(chromatogram);
        } catch (const InputError &fault) {
            if (holds_peaks) {
                throw;
            }
            result_.notes.push_back(fmt::format("! the trace {} of the pump is left out: {}",
                                                in_quotes(name), fault.what()));
        }
    }

    void add(Chromatogram &chromatogram) {
        Trace &trace = chromatogram.trace;
        if (!chromatogram.time || !chromatogram.signal) {
            if (chromatogram.length == 0) {
                ++empty_;
                return;
            }
            throw InputError(chromatogram.where,
                             chromatogram.time ? "a chromatogram without an intensity array"
                                               : "a chromatogram without a time array",
                             "both arrays");
        }
        trace.time_min = chromatogram.time->values();
        trace.signal = chromatogram.signal->values();
        if (trace.time_min.empty() && trace.signal.empty()) {
            ++empty_;
            return;
        }
        const double minutes =
            minutes_per_unit(chromatogram.time->unit(), options_, chromatogram.time->where());
        for (double &time : trace.time_min) {
            time *= minutes;
        }
        trace.signal_unit = chromatogram.signal->unit();
        add_trace(result_, std::move(trace), chromatogram.where);
    }

    TraceOptions options_;
    TraceFile result_;
    std::vector<std::string> path_; ///< names of the open elements
    bool has_version_ = false;      ///< the element mzML, of a version that is read, has begun
    std::map<std::string, std::vector<MzmlParam>> groups_;
    std::string group_; ///< the open one
    std::optional<Chromatogram> chromatogram_;
    std::optional<MzmlSpectrum> spectrum_;
    std::size_t scans_ = 0; ///< of the open spectrum
    std::optional<MzmlArray> array_;
    MzmlSpectra spectra_;
    std::size_t empty_ = 0; ///< chromatograms without points
};

} // namespace

TraceFile read_mzml(std::istream &in, const std::string &file, const TraceOptions &options) {
    MzmlReader reader(file, options);
    read_xml(in, file,
             {.start = [&](std::string_view name, const XmlAttributes &attributes,
                           std::size_t line) { reader.start(name, attributes, line); },
              .end = [&](std::string_view name, std::size_t) { reader.end(name); },
              .text = [&](std::string_view text, std::size_t) { reader.text(text); }},
             kMzml);
    return std::move(reader).take_result();
}

} // namespace cospot
