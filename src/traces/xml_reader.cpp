#include "traces/xml_reader.h"

#include "shared/error.h"

#include <expat.h>
#include <fmt/format.h>

#include <exception>
#include <istream>
#include <memory>
#include <new>

namespace cospot {

namespace {

constexpr std::size_t kDeepest = 64;
constexpr std::size_t kLongestTag = 8U << 20U;
constexpr std::size_t kXmlBlock = 1U << 16U;

std::string_view without_prefix(std::string_view name) {
    return name.substr(name.find(':') + 1); // npos + 1 is 0
}

/// Calls the handlers from the parser's. No exception may pass through the parser, which is in C:
/// it is kept until the parser has returned.
class XmlParse {
public:
    XmlParse(const std::string &file, const XmlHandlers &handlers, const std::string &expected)
        : file_(file), handlers_(handlers), expected_(expected),
          parser_(XML_ParserCreate(nullptr), &XML_ParserFree) {
        if (!parser_) {
            throw std::bad_alloc();
        }
        XML_SetUserData(parser_.get(), this);
        XML_SetElementHandler(parser_.get(), &on_start, &on_end);
        XML_SetCharacterDataHandler(parser_.get(), &on_text);
        XML_SetStartDoctypeDeclHandler(parser_.get(), &on_doctype);
    }

    void feed(std::string_view bytes, bool is_last) {
        fed_ += bytes.size();
        const XML_Status status =
            XML_Parse(parser_.get(), bytes.data(), static_cast<int>(bytes.size()), is_last ? 1 : 0);
        if (failure_) {
            std::rethrow_exception(failure_);
        }
        if (status != XML_STATUS_OK) {
            throw InputError(here(), fault(is_last), expected_);
        }
        const XML_Index done = XML_GetCurrentByteIndex(parser_.get());
        if (done >= 0 && fed_ - static_cast<std::size_t>(done) > kLongestTag) {
            throw InputError(here(), "a tag of more than 8 MiB", expected_);
        }
    }

private:
    [[nodiscard]] std::size_t line() const { return XML_GetCurrentLineNumber(parser_.get()); }
    [[nodiscard]] Where here() const {
        return {file_, line(), std::to_string(XML_GetCurrentColumnNumber(parser_.get()) + 1)};
    }

    [[nodiscard]] std::string fault(bool is_last) const {
        const XML_Error code = XML_GetErrorCode(parser_.get());
        const bool is_cut_off = code == XML_ERROR_NO_ELEMENTS || code == XML_ERROR_UNCLOSED_TOKEN ||
                                code == XML_ERROR_PARTIAL_CHAR ||
                                code == XML_ERROR_UNCLOSED_CDATA_SECTION;
        if (is_last && is_cut_off) {
            return "the end of the file inside the document: it is cut off";
        }
        if (code == XML_ERROR_UNDEFINED_ENTITY) {
            return "an entity of the file's own";
        }
        return fmt::format("malformed XML ({})", XML_ErrorString(code));
    }

    template <typename Work> void guarded(const Work &work) {
        if (failure_) {
            return; // the parser may still call once it has been told to stop
        }
        try {
            work();
        } catch (...) {
            failure_ = std::current_exception();
            (void)XML_StopParser(parser_.get(), XML_FALSE);
        }
    }

    static XmlParse &of(void *user) { return *static_cast<XmlParse *>(user); }

    static void on_start(void *user, const char *name, const char **attributes) {
        XmlParse &parse = of(user);
        parse.guarded([&] {
            if (++parse.depth_ > kDeepest) {
                throw InputError(parse.here(), "elements more than 64 deep", parse.expected_);
            }
            parse.handlers_.start(without_prefix(name), XmlAttributes(attributes), parse.line());
        });
    }

    static void on_end(void *user, const char *name) {
        XmlParse &parse = of(user);
        parse.guarded([&] {
            --parse.depth_;
            parse.handlers_.end(without_prefix(name), parse.line());
        });
    }

    static void on_text(void *user, const char *text, int size) {
        XmlParse &parse = of(user);
        parse.guarded([&] {
            parse.handlers_.text({text, static_cast<std::size_t>(size)}, parse.line());
        });
    }

    static void on_doctype(void *user, const char *, const char *, const char *, int) {
        XmlParse &parse = of(user);
        parse.guarded([&] {
            throw InputError(parse.here(), "a DOCTYPE",
                             parse.expected_ + " without one (it could hide other content)");
        });
    }

    const std::string &file_;
    const XmlHandlers &handlers_;
    const std::string &expected_;
    std::unique_ptr<XML_ParserStruct, decltype(&XML_ParserFree)> parser_;
    std::exception_ptr failure_;
    std::size_t depth_ = 0;
    std::size_t fed_ = 0; ///< bytes
};

} // namespace

std::string_view XmlAttributes::operator[](std::string_view name) const {
    for (const char **pair = pairs_; *pair != nullptr; pair += 2) {
        if (name == *pair) {
            return pair[1];
        }
    }
    return {};
}

void read_xml(std::istream &in, const std::string &file, const XmlHandlers &handlers,
              const std::string &expected) {
    XmlParse parse(file, handlers, expected);
    std::string block(kXmlBlock, '\0');
    bool is_last = false;
    while (!is_last) {
        in.read(block.data(), static_cast<std::streamsize>(block.size()));
        const auto size = static_cast<std::size_t>(in.gcount());
        is_last = size < block.size();
        parse.feed({block.data(), size}, is_last);
    }
}

} // namespace cospot
