#include "expectation/kept_prediction.h"

#include "evidence/kept_bytes.h"

#include <vector>

namespace cospot {

namespace {

/// The numbers of the parameters, in one order for reading and writing.
template <class Parameters, class Use>
void for_each_number(Parameters &parameters, const Use &use) {
    for (auto *number :
         {&parameters.weights.linear, &parameters.weights.radial, &parameters.weights.fingerprint,
          &parameters.weights.common, &parameters.shared.knee, &parameters.shared.width,
          &parameters.own, &parameters.own_width, &parameters.noise}) {
        use(*number);
    }
}

std::string to_bytes(const prediction::StructureFit &fit) {
    std::string bytes;
    for_each_number(fit.parameters, [&](double number) { put(bytes, number); });
    put_several(bytes, fit.calibrations);
    return bytes;
}

prediction::StructureFit from_bytes(std::string_view bytes) {
    prediction::StructureFit fit;
    for_each_number(fit.parameters, [&](double &number) { number = take<double>(bytes); });
    fit.calibrations = take_several<prediction::Calibration>(bytes);
    return fit;
}

} // namespace

std::string origin_of(const SystemFamily &family) {
    const prediction::RetentionTable &table = family.table;
    std::string bytes;
    put(bytes, kPredictionVersion);
    put(bytes, static_cast<std::int64_t>(family.quantity));
    for (const prediction::Mixture &mixture : table.mixtures) {
        put_several(bytes, mixture);
    }
    for (const prediction::CompoundFeatures &compound : table.compounds) {
        put_several(bytes, compound.descriptors);
        for (const auto &[environment, count] : compound.fingerprint) {
            put(bytes, environment);
            put(bytes, count);
        }
    }
    for (const prediction::RetentionValue &value : table.values) {
        put(bytes, static_cast<std::uint64_t>(value.compound));
        put(bytes, static_cast<std::uint64_t>(value.mixture));
        put(bytes, value.value);
    }
    return bytes;
}

std::optional<prediction::StructureFit> kept_prediction(library::Database &database,
                                                        const SystemFamily &family) {
    const auto bytes =
        library::kept_prediction_fit(database, family.systems.front().id, family.quantity);
    const auto content = bytes ? unsealed(origin_of(family), *bytes) : std::nullopt;
    return content ? std::optional(from_bytes(*content)) : std::nullopt;
}

void store_prediction(library::Database &writer, const SystemFamily &family,
                      const prediction::StructureFit &fit) {
    std::vector<library::SystemId> systems;
    systems.reserve(family.systems.size());
    for (const library::System &system : family.systems) {
        systems.push_back(system.id);
    }
    library::store_prediction_fit(writer, systems, family.quantity,
                                  sealed(origin_of(family), to_bytes(fit)));
}

} // namespace cospot
