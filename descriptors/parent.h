#pragma once

#include <memory>

namespace RDKit {
class ROMol;
}

namespace cospot::descriptors {

/// The largest fragment with carbon, its charges neutralised by moving hydrogen: what a salt, a
/// hydrate and a zwitterion have in common with the free base or acid. Null where the molecule is
/// its own parent, which holds for
/// - a molecule that is one uncharged fragment,
/// - a molecule without carbon (sodium chloride is not hydrogen chloride),
/// - a complex in which nitrogen or carbon holds a metal (chlorophyll is not pheophytin).
/// A bond drawn from an alkali or alkaline-earth metal to oxygen, sulfur or halogen is ionic.
[[nodiscard]] std::unique_ptr<RDKit::ROMol> parent_of(const RDKit::ROMol &molecule);

} // namespace cospot::descriptors
