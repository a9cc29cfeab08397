#include "drawing/label_layout.h"

#include "shared/text.h"

#include <algorithm>
#include <numeric>

namespace cospot {

namespace {

/// A bold digit of a wide serif font, at the 11 px of labels.
constexpr double kLabelCharacter = 7.8;
constexpr double kAbovePoint = 3.0;
constexpr int kMostLevels = 7;

/// Neighbours that touch: they share their distance from where they want to be.
struct LabelBlock {
    double sum = 0.0; ///< of what its members want for its first
    std::size_t members = 0;
    double first = 0.0;
};

double first_place(const LabelBlock &block, double spacing, double low, double high) {
    const double length = spacing * static_cast<double>(block.members - 1);
    const double wanted = block.sum / static_cast<double>(block.members);
    return std::max(low, std::min(wanted, high - length));
}

} // namespace

double label_width(const std::string &text) {
    return kLabelCharacter * static_cast<double>(display_width(text));
}

bool overlap(const LabelBox &a, const LabelBox &b) {
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height &&
           b.y < a.y + a.height;
}

std::vector<double> spread_apart(const std::vector<double> &wanted, double spacing, double low,
                                 double high) {
    std::vector<std::size_t> order(wanted.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return wanted[a] < wanted[b]; });
    std::vector<LabelBlock> blocks;
    for (const std::size_t index : order) {
        blocks.push_back({wanted[index], 1, 0.0});
        blocks.back().first = first_place(blocks.back(), spacing, low, high);
        while (blocks.size() > 1) {
            const LabelBlock &before = blocks[blocks.size() - 2];
            const double length = spacing * static_cast<double>(before.members);
            if (before.first + length <= blocks.back().first) {
                break;
            }
            LabelBlock merged = before;
            merged.sum += blocks.back().sum - length * static_cast<double>(blocks.back().members);
            merged.members += blocks.back().members;
            merged.first = first_place(merged, spacing, low, high);
            blocks.pop_back();
            blocks.back() = merged;
        }
    }
    std::vector<double> places(wanted.size());
    std::size_t next = 0;
    for (const LabelBlock &block : blocks) {
        for (std::size_t member = 0; member < block.members; ++member) {
            places[order[next++]] = block.first + spacing * static_cast<double>(member);
        }
    }
    return places;
}

std::vector<PlacedLabel> place_above(const std::vector<PointLabel> &labels, double left,
                                     double right, double top, const IsBlocked &is_blocked) {
    std::vector<std::size_t> order(labels.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return labels[a].importance > labels[b].importance;
    });
    std::vector<PlacedLabel> placed;
    for (const std::size_t index : order) {
        const PointLabel &label = labels[index];
        LabelBox box{label.text, 0.0, 0.0, label_width(label.text), kLabelHeight};
        box.x = std::clamp(label.x - box.width / 2, left, std::max(left, right - box.width));
        for (int level = 0; level < kMostLevels; ++level) {
            box.y = label.y - kAbovePoint - kLabelHeight * (level + 1);
            if (box.y < top) {
                break;
            }
            const bool is_free =
                !is_blocked(box) &&
                std::none_of(placed.begin(), placed.end(),
                             [&](const PlacedLabel &other) { return overlap(other.box, box); });
            if (is_free) {
                placed.push_back({index, box, level > 0});
                break;
            }
        }
    }
    return placed;
}

} // namespace cospot
