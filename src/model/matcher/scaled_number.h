#pragma once

#include <cmath>

namespace cospot::matcher {

/// A number above or equal to 0 with the precision of a double and a far wider range: products of
/// thousands of odds neither overflow nor vanish. Its value is `part` times 2 to the 256 `block`.
class Scaled {
public:
    Scaled() = default;
    explicit Scaled(double value) : part(value) { settle(); }

    Scaled &operator+=(const Scaled &other) {
        if (part == 0.0 || (other.part != 0.0 && other.block > block + 1)) {
            *this = other;
        } else if (other.block == block) {
            part += other.part;
        } else if (other.block == block + 1) {
            part = part * kDown + other.part;
            block = other.block;
        } else if (other.block == block - 1) {
            part += other.part * kDown;
        }
        settle();
        return *this;
    }

    friend Scaled operator*(Scaled a, const Scaled &b) {
        a.part *= b.part;
        a.block += b.block;
        a.settle();
        return a;
    }

    /// This number as a share of a larger one (which is not 0).
    [[nodiscard]] double share_of(const Scaled &whole) const {
        return std::ldexp(part / whole.part, 256 * static_cast<int>(block - whole.block));
    }

    [[nodiscard]] double log2() const { return std::log2(part) + 256.0 * double(block); }

private:
    static constexpr double kUp = 0x1p256;
    static constexpr double kDown = 0x1p-256;

    void settle() {
        while (part >= 0x1p128) {
            part *= kDown;
            ++block;
        }
        while (part < 0x1p-128 && part > 0.0) {
            part *= kUp;
            --block;
        }
    }

    double part = 0.0;
    long block = 0;
};

} // namespace cospot::matcher
