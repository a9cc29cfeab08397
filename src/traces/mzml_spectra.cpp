#include "traces/mzml_spectra.h"

#include "shared/number.h"
#include "shared/text.h"
#include "traces/time_unit.h"
#include "traces/trace_points.h"

#include <fmt/format.h>

#include <numeric>
#include <utility>

namespace cospot {

void MzmlSpectrum::take(const MzmlParam &param) {
    if (param.accession == "MS:1000511") {
        level = param.value;
    } else if (param.accession == "MS:1000285") {
        total = param;
    } else if (param.accession == "MS:1000804") { // spectrum of electromagnetic radiation
        is_light = true;
    } else if (param.accession == "MS:1000805" || param.accession == "MS:1000806") {
        is_light = true;
        light_kind = param.accession == "MS:1000805" ? "emission" : "absorption";
    }
}

MzmlSpectra::MzmlSpectra(std::string file, const TraceOptions &options)
    : file_(std::move(file)), options_(options), ions_{.trace = {.name = "total of the spectra",
                                                                 .kind = "total ion current"},
                                                       .is_stated = true},
      light_{.trace = {.name = "sum over all wavelengths"}} {}

void MzmlSpectra::add(const MzmlSpectrum &spectrum) {
    if (fault_) {
        return;
    }
    try {
        add_point(spectrum);
    } catch (const InputError &fault) {
        keep_fault(fault);
    }
}

void MzmlSpectra::keep_fault(const InputError &fault) {
    if (!fault_) {
        fault_.emplace(fault);
    }
}

void MzmlSpectra::add_point(const MzmlSpectrum &spectrum) {
    const bool is_first_level = spectrum.level.empty() || spectrum.level == "1";
    if (!spectrum.is_light && !is_first_level) {
        return; // fragments of what the first level counts already
    }
    if (!spectrum.scan_time) {
        throw InputError(spectrum.where, "a spectrum without its time", "a scan start time");
    }
    const MzmlParam &time = *spectrum.scan_time;
    const double minutes = minutes_per_unit(unit_of(time), options_, spectrum.where) *
                           parse_number(time.value, spectrum.where, "a scan start time");
    Total &total = spectrum.is_light ? light_ : ions_;
    check_count(total.trace.time_min.size() + 1, spectrum.where);
    double sum = 0.0;
    if (!spectrum.needs_signal()) {
        sum = parse_number(spectrum.total->value, spectrum.where, "a total ion current");
        total.trace.signal_unit = spectrum.total->unit_name;
    } else if (spectrum.signal) {
        const std::vector<double> values = spectrum.signal->values();
        sum = std::accumulate(values.begin(), values.end(), 0.0);
        total.trace.signal_unit = spectrum.signal->unit();
        total.is_stated = false;
    } else if (spectrum.length > 0) {
        throw InputError(spectrum.where, "a spectrum without an intensity array", "one");
    }
    if (spectrum.is_light) {
        total.trace.kind = spectrum.light_kind;
    }
    total.trace.time_min.push_back(minutes);
    total.trace.signal.push_back(sum);
}

void MzmlSpectra::add_traces_to(TraceFile &file) && {
    if (fault_) {
        throw InputError(*fault_);
    }
    for (Total *total : {&ions_, &light_}) {
        const std::size_t points = total->trace.time_min.size();
        if (points == 0) {
            continue;
        }
        file.notes.push_back(fmt::format("no chromatogram in the file: {} from {}",
                                         total->is_stated ? "the total ion current is read"
                                                          : "the signals are summed",
                                         counted(points, "scan")));
        add_trace(file, std::move(total->trace), {file_, 0, "spectrumList"});
    }
}

} // namespace cospot
