#pragma once

namespace cospot::quantities {

/// A value with its standard uncertainty, both in the same unit (JCGM 100:2008, 2.3.1).
struct Uncertain {
    double value = 0.0;
    double standard_uncertainty = 0.0;
};

} // namespace cospot::quantities
