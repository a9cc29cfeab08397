#include "descriptors/api.h"

const cospot::descriptors::Api *cospot_descriptors_api() {
    static constexpr cospot::descriptors::Api api{&cospot::descriptors::read_smiles};
    return &api;
}
