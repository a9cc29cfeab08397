#include "report/page_looks.h"

#include "report/page_parts.h"

namespace cospot {

std::string_view page_style() {
    return kPageStyle;
}

std::string_view page_script() {
    return kPageScript;
}

} // namespace cospot
