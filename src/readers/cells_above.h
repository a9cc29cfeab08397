#pragma once

#include "shared/table.h"

#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// What the rows of a plate's table say of where their spots lie, when their empty cells are filled
/// with what stands above them: a plate, a lane, a label (with its role) is often written once. A
/// new lane ends the label, a new plate the lane.
class CellsAbove {
public:
    /// Takes the cells of the row. An empty plate cell must not merge two plates: a lane that comes
    /// again after another one is a fault of the row.
    void take(const TableReader &table);

    [[nodiscard]] const std::string &plate() const { return plate_; }
    [[nodiscard]] const std::string &lane() const { return lane_; }
    /// As it stands in the file: of a co-spot "SAMPLE + STANDARD".
    [[nodiscard]] const std::string &label() const { return label_; }
    /// Whether the row has the label of the one above: then it also has its role.
    [[nodiscard]] bool has_role_above() const { return has_role_above_; }

    /// What was filled, as one note; none where nothing was.
    [[nodiscard]] std::vector<std::string> notes() const;

private:
    void fill(const char *column, std::size_t line);

    std::string plate_;
    std::string lane_;
    std::string label_;
    std::string role_;
    bool has_role_above_ = false;
    std::map<std::string, std::set<std::string>> lanes_; ///< of plates, as far as they are read
    std::set<std::string_view> filled_;                  ///< columns
    std::set<std::size_t> filled_lines_;
};

} // namespace cospot
