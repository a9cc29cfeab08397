#pragma once

#include <cstddef>
#include <functional>
#include <iosfwd>
#include <string>
#include <string_view>

namespace cospot {

/// Attributes of an element, found by name.
class XmlAttributes {
public:
    /// Names and values in turn, a null behind the last, as the parser has them.
    explicit XmlAttributes(const char **pairs) : pairs_(pairs) {}
    /// Empty where there is no such attribute.
    [[nodiscard]] std::string_view operator[](std::string_view name) const;

private:
    const char **pairs_;
};

/// What is to be done at each part of a document. Names come without their prefix. Each may throw;
/// the reading then ends.
struct XmlHandlers {
    std::function<void(std::string_view name, const XmlAttributes &, std::size_t line)> start;
    std::function<void(std::string_view name, std::size_t line)> end;
    /// Text inside an element, in pieces of any size.
    std::function<void(std::string_view text, std::size_t line)> text;
};

/// Reads an XML document piece by piece. Throws InputError where it is not well-formed or cut off,
/// for a DOCTYPE (so no entity of the file's own is ever expanded), for elements more than 64 deep
/// and for a tag of more than 8 MiB. `expected` says what the document should be.
void read_xml(std::istream &in, const std::string &file, const XmlHandlers &handlers,
              const std::string &expected);

} // namespace cospot
