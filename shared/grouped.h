#pragma once

#include <cstddef>
#include <map>
#include <utility>
#include <vector>

namespace cospot {

/// The items by a key of theirs, the groups in the order of their first items.
template <class Item, class KeyOf>
[[nodiscard]] std::vector<std::vector<Item>> grouped(std::vector<Item> items, const KeyOf &key_of) {
    std::vector<std::vector<Item>> groups;
    std::map<decltype(key_of(items.front())), std::size_t> index_of;
    for (Item &item : items) {
        const auto [known, is_new] = index_of.try_emplace(key_of(item), groups.size());
        if (is_new) {
            groups.emplace_back();
        }
        groups[known->second].push_back(std::move(item));
    }
    return groups;
}

} // namespace cospot
