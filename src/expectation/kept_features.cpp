#include "expectation/kept_features.h"

#include "evidence/kept_bytes.h"
#include "library/compounds.h"
#include "library/damage.h"
#include "library/predictions.h"
#include "structures/structure_service.h"

#include <optional>
#include <utility>

namespace cospot {

namespace {

/// What the features of a structure follow from.
std::string origin_of(const std::string &smiles) {
    return structure_service().retention_features_version() + ' ' + smiles;
}

std::string to_bytes(const std::string &smiles, const prediction::CompoundFeatures &features) {
    std::string bytes;
    put_several(bytes, features.descriptors);
    put(bytes, static_cast<std::uint64_t>(features.fingerprint.size()));
    for (const auto &[environment, count] : features.fingerprint) {
        put(bytes, environment);
        put(bytes, count);
    }
    return sealed(origin_of(smiles), bytes);
}

std::optional<prediction::CompoundFeatures> from_bytes(const std::string &smiles,
                                                       std::string_view bytes) {
    auto content = unsealed(origin_of(smiles), bytes);
    if (!content) {
        return std::nullopt;
    }
    prediction::CompoundFeatures features;
    features.descriptors = take_several<double>(*content);
    features.fingerprint.resize(take<std::uint64_t>(*content));
    for (auto &[environment, count] : features.fingerprint) {
        environment = take<std::uint32_t>(*content);
        count = take<std::uint16_t>(*content);
    }
    return features;
}

} // namespace

void KeptFeatures::read_or_compute(const std::vector<library::CompoundId> &compounds) {
    std::vector<library::CompoundId> missing;
    std::vector<std::string> smiles;
    for (const library::CompoundId compound : compounds) {
        if (known_.contains(compound)) {
            continue;
        }
        const library::Compound held =
            library::sound(library::find_compound(*database_, compound), *database_);
        const auto bytes = library::kept_features(*database_, compound);
        auto kept = bytes ? from_bytes(held.smiles, *bytes) : std::nullopt;
        if (kept) {
            known_.emplace(compound, std::move(*kept));
        } else {
            missing.push_back(compound);
            smiles.push_back(held.smiles);
        }
    }
    std::vector<prediction::CompoundFeatures> features = features_of(smiles);
    for (std::size_t i = 0; i < missing.size(); ++i) {
        known_.insert_or_assign(missing[i], std::move(features[i]));
        new_.emplace(missing[i], smiles[i]);
    }
}

std::vector<prediction::CompoundFeatures>
KeptFeatures::of(const std::vector<library::CompoundId> &compounds) {
    read_or_compute(compounds);
    std::vector<prediction::CompoundFeatures> features;
    features.reserve(compounds.size());
    for (const library::CompoundId compound : compounds) {
        features.push_back(known_.at(compound));
    }
    return features;
}

void KeptFeatures::store_new(library::Database &writer) {
    for (const auto &[compound, smiles] : new_) {
        library::store_features(writer, compound, to_bytes(smiles, known_.at(compound)));
    }
    new_.clear();
}

} // namespace cospot
