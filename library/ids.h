#pragma once

#include <concepts>
#include <cstdint>

namespace cospot::library {

/// The numbers of what a library holds, from 1; `{}` is that of what is not stored yet. Each is a
/// type of its own, so that none is taken for another or for an index.
enum class CompoundId : std::int64_t {};
enum class SystemId : std::int64_t {};
enum class RunId : std::int64_t {};         ///< of a plate or a run
enum class MeasurementId : std::int64_t {}; ///< of a value
enum class ChangeId : std::int64_t {};
enum class ColumnId : std::int64_t {}; ///< of a packed column
enum class FitId : std::int64_t {};

template <class T>
concept IsId = std::same_as<T, CompoundId> || std::same_as<T, SystemId> || std::same_as<T, RunId> ||
    std::same_as<T, MeasurementId> || std::same_as<T, ChangeId> || std::same_as<T, ColumnId> ||
    std::same_as<T, FitId>;

template <IsId Id> [[nodiscard]] constexpr std::int64_t as_number(Id id) {
    return static_cast<std::int64_t>(id);
}

/// What fmt prints.
template <IsId Id> [[nodiscard]] constexpr std::int64_t format_as(Id id) {
    return as_number(id);
}

} // namespace cospot::library
