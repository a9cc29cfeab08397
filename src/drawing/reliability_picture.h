#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace cospot {

/// Statements of about the same stated probability: mean stated, share that was right, how many.
struct DrawnBin {
    double stated = 0.0;
    double right = 0.0;
    std::size_t count = 0;
};

/// Stated probability against the share that was right, as stated (rings) and after the correction
/// (filled squares, joined by a line); on the diagonal what is said is what is so. The whiskers are
/// two standard errors of a share. Below it how many corrected statements there were in each bin.
[[nodiscard]] std::string reliability_picture(const std::vector<DrawnBin> &as_stated,
                                              const std::vector<DrawnBin> &corrected,
                                              const std::string &title);

} // namespace cospot
