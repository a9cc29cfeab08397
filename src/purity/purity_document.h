#pragma once

#include "document/document.h"
#include "purity/purity_result.h"

namespace cospot {

/// Whether the samples are what they are declared to be: the verdict, with several samples a
/// summary and their trend, then each sample with its rules, picture and features; what holds for
/// all of them is said once. With `has_sheets` each of several samples is printed on a sheet of its
/// own, to be signed. It never says "pure".
[[nodiscard]] Document purity_document(const purity::PurityResult &result, bool has_sheets);

} // namespace cospot
