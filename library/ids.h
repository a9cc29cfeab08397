#pragma once

#include <concepts>
#include <cstdint>

namespace cospot::library {

/// The numbers under which a library keeps things, from 1; 0, what `{}` gives, is that of nothing
/// yet stored. Each is a type of its own, so that none is taken for another or for an index.
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

/// How fmt writes it.
template <IsId Id> [[nodiscard]] constexpr std::int64_t format_as(Id id) {
    return as_number(id);
}

} // namespace cospot::library
