#include "drawing/trace_picture.h"

#include "document/html.h"
#include "drawing/svg.h"
#include "drawing/time_axis.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace cospot {

namespace {

constexpr std::size_t kParts = 1200; ///< of a trace, each drawn by four points at most

/// From times and signals to pixels.
struct Scale {
    TimeAxis time;
    double lowest = 0.0;
    double highest = 1.0;

    [[nodiscard]] double y(double signal) const {
        return kChromatogramBase -
               (kChromatogramBase - kHighest) * (signal - lowest) / (highest - lowest);
    }
};

Scale scale_of(const RecordedTrace &trace) {
    const auto [low, high] = std::minmax_element(trace.signal.begin(), trace.signal.end());
    const double range = *high > *low ? *high - *low : 1.0;
    return {{trace.time_min.front(), trace.time_min.back()}, *low, *low + range};
}

std::size_t index_at(const RecordedTrace &trace, double time_min) {
    const auto at = std::lower_bound(trace.time_min.begin(), trace.time_min.end(), time_min);
    return std::min(static_cast<std::size_t>(at - trace.time_min.begin()),
                    trace.time_min.size() - 1);
}

/// The points that are drawn: those of the thinned trace, and the borders and tops of the peaks.
std::vector<std::size_t> drawn_points(const RecordedTrace &trace,
                                      const std::vector<DrawnPeak> &peaks) {
    const auto kept = thinned(trace.signal, kParts);
    std::set<std::size_t> points(kept.begin(), kept.end());
    for (const DrawnPeak &peak : peaks) {
        for (const auto &time : {peak.start_min, peak.end_min}) {
            if (time) {
                points.insert(index_at(trace, *time));
            }
        }
        points.insert(index_at(trace, peak.retention_time_min));
    }
    return {points.begin(), points.end()};
}

void add_point(std::string &path, double x, double y) {
    path += fmt::format("{}{} {}", path.empty() ? 'M' : 'L', svg::number(x), svg::number(y));
}

std::string line_path(const RecordedTrace &trace, const std::vector<double> &values,
                      const std::vector<std::size_t> &points, const Scale &scale) {
    std::string path;
    for (const std::size_t i : points) {
        add_point(path, scale.time.x(trace.time_min[i]), scale.y(values[i]));
    }
    return path;
}

/// The area of a peak: along the trace and back along the baseline.
std::string area_path(const RecordedTrace &trace, const DrawnPeak &peak,
                      const std::vector<std::size_t> &points, const Scale &scale) {
    const std::size_t start = index_at(trace, *peak.start_min);
    const std::size_t end = index_at(trace, *peak.end_min);
    const auto first = std::lower_bound(points.begin(), points.end(), start);
    const auto last = std::upper_bound(points.begin(), points.end(), end);
    std::string path;
    for (auto i = first; i != last; ++i) {
        add_point(path, scale.time.x(trace.time_min[*i]), scale.y(trace.signal[*i]));
    }
    for (auto i = last; i != first;) {
        --i;
        add_point(path, scale.time.x(trace.time_min[*i]), scale.y(trace.baseline[*i]));
    }
    return path + 'Z';
}

std::string inner_picture(const RecordedTrace &trace, const std::vector<DrawnPeak> &peaks,
                          const Scale &scale) {
    const std::vector<std::size_t> points = drawn_points(trace, peaks);
    std::string inner = fmt::format(
        R"(<svg class="trace" x="0" y="0" width="{0}" height="{1}" viewBox="0 0 {0} {1}" )"
        R"(preserveAspectRatio="none">)",
        svg::number(kChromatogramWidth), svg::number(kPictureHeight));
    for (const DrawnPeak &peak : peaks) {
        if (peak.start_min && peak.end_min) {
            inner += fmt::format(R"(<g class="{}" data-key="{}"><path d="{}"/></g>)",
                                 style_of(peak.kind), html::escaped(peak.key),
                                 area_path(trace, peak, points, scale));
        }
    }
    inner += fmt::format(R"(<path class="baseline" d="{}"/><path class="signal" d="{}"/></svg>)",
                         line_path(trace, trace.baseline, points, scale),
                         line_path(trace, trace.signal, points, scale));
    return inner + '\n';
}

/// Numbers above the tops, where there is room.
std::vector<PlacedLabel> labels_of(const RecordedTrace &trace, const std::vector<DrawnPeak> &peaks,
                                   const Scale &scale) {
    std::vector<PointLabel> labels;
    for (const DrawnPeak &peak : peaks) {
        const double signal = trace.signal[index_at(trace, peak.retention_time_min)];
        labels.push_back(
            {peak.key, scale.time.x(peak.retention_time_min), scale.y(signal), signal});
    }
    return place_above(labels, 0.0, kChromatogramWidth, kLabelsTop, [&](const LabelBox &place) {
        return std::any_of(labels.begin(), labels.end(), [&](const PointLabel &other) {
            return other.x > place.x && other.x < place.x + place.width &&
                   other.y < place.y + place.height;
        });
    });
}

} // namespace

std::vector<std::size_t> thinned(const std::vector<double> &signal, std::size_t parts) {
    constexpr std::size_t of_each = 4;
    std::vector<std::size_t> kept;
    const std::size_t step = std::max<std::size_t>(1, (signal.size() + parts - 1) / parts);
    for (std::size_t begin = 0; begin < signal.size(); begin += step) {
        const std::size_t end = std::min(begin + step, signal.size());
        if (step <= of_each) {
            for (std::size_t i = begin; i < end; ++i) {
                kept.push_back(i);
            }
            continue;
        }
        const auto from = signal.begin() + static_cast<std::ptrdiff_t>(begin);
        const auto [low, high] =
            std::minmax_element(from, signal.begin() + static_cast<std::ptrdiff_t>(end));
        const std::set<std::size_t> points{begin, begin + static_cast<std::size_t>(low - from),
                                           begin + static_cast<std::size_t>(high - from), end - 1};
        kept.insert(kept.end(), points.begin(), points.end());
    }
    return kept;
}

ChromatogramPicture trace_picture(const RecordedTrace &trace, const std::vector<DrawnPeak> &peaks,
                                  const std::string &title, const UpperAxis &upper) {
    const Scale scale = scale_of(trace);
    const std::vector<PlacedLabel> placed = labels_of(trace, peaks, scale);
    ChromatogramPicture picture;
    picture.caption = "The trace as it was recorded, with its baseline";
    if (!trace.signal_unit.empty()) {
        picture.caption +=
            fmt::format("; highest signal {:.4g} {}", scale.highest, trace.signal_unit);
    }
    picture.caption += placed.size() < peaks.size()
                           ? fmt::format(". {} of {} peaks have room for their number.",
                                         placed.size(), peaks.size())
                           : ".";
    picture.svg = svg::begin(kChromatogramWidth, kPictureHeight, "chromatogram", title,
                             fmt::format("A recorded signal over time with {} peaks; the table "
                                         "below the picture says the same in words.",
                                         peaks.size()));
    picture.svg += upper_axis(upper, scale.time) + time_ticks(scale.time);
    picture.svg += inner_picture(trace, peaks, scale);
    for (const PlacedLabel &label : placed) {
        const DrawnPeak &peak = peaks[label.index];
        picture.svg += svg::begin_mark(peak.key, peak.title, style_of(peak.kind));
        if (label.is_raised) {
            const double x = scale.time.x(peak.retention_time_min);
            picture.svg += svg::line(
                x, label.box.y + label.box.height, x,
                scale.y(trace.signal[index_at(trace, peak.retention_time_min)]), "leader");
        }
        picture.svg += label_svg(label.box);
        picture.svg.append(svg::kEndMark).append("\n");
        picture.labels.push_back(label.box);
    }
    picture.svg += svg::kEnd;
    return picture;
}

} // namespace cospot
