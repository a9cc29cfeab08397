#pragma once

#include "shared/error.h"

#include <exception>
#include <new>
#include <string>
#include <string_view>

namespace cospot::descriptors {

/// What a molecule is read from, for messages: "found QUOTED (reason); expected EXPECTED".
struct Origin {
    std::string quoted;
    std::string expected;
};

[[nodiscard]] Origin smiles_origin(std::string_view smiles);

/// `quoted` is the title of the block, the one text by which a user knows it.
[[nodiscard]] Origin mol_block_origin(std::string_view block);

/// Throws the InputError, with an empty Where.
[[noreturn]] void refuse(const Origin &origin, std::string_view reason);

/// Keeps RDKit off the standard streams; the first call counts.
void silence_log();

/// Does the work; what RDKit throws at odd input becomes an InputError. `work` takes nothing.
template <typename Work> auto guarded(const Origin &origin, const Work &work) {
    silence_log();
    try {
        return work();
    } catch (const InputError &) {
        throw;
    } catch (const std::bad_alloc &) {
        throw;
    } catch (const std::exception &error) { // RDKit's own checks, met with odd input only
        refuse(origin, std::string("RDKit cannot handle it: ") + error.what());
    }
}

} // namespace cospot::descriptors
