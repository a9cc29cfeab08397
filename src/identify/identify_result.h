#pragma once

#include "identification/explanation_words.h"
#include "identification/identification.h"
#include "readers/feature.h"

#include <vector>

namespace cospot {

/// What is said about one feature.
struct AnsweredFeature {
    const Feature *feature = nullptr;
    Identification found;
    ExplanationWords words; ///< empty where no explanation was asked for
};

} // namespace cospot
