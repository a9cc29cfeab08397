#pragma once

#include <algorithm>
#include <cctype>
#include <set>
#include <string>

namespace cospot {

/// Reads the elements of a page as a browser would, as far as well-formed pages need it.
class PageMarkup {
public:
    explicit PageMarkup(const std::string &page) : page_(page) {
        for (at_ = page_.find('<'); at_ < page_.size(); at_ = page_.find('<', at_)) {
            ++at_;
            if (page_[at_] != '!' && page_[at_] != '/') {
                read_element();
            }
        }
    }

    /// "table", "table class", ...; what is no well-formed element comes as "broken".
    [[nodiscard]] const std::set<std::string> &names() const { return names_; }
    /// Values of attributes that name another resource, but for parts of the page itself and data.
    [[nodiscard]] const std::set<std::string> &links() const { return links_; }

private:
    std::string word() {
        const std::size_t begin = at_;
        while (at_ < page_.size() && (std::isalnum(static_cast<unsigned char>(page_[at_])) != 0 ||
                                      page_[at_] == '-' || page_[at_] == ':')) {
            ++at_;
        }
        return page_.substr(begin, at_ - begin);
    }

    void read_element() {
        const std::string element = word();
        names_.insert(element.empty() ? "broken" : element);
        while (at_ < page_.size() && page_[at_] != '>') {
            if (page_[at_] == ' ' || page_[at_] == '\n' || page_[at_] == '/') {
                ++at_;
            } else if (!read_attribute(element)) {
                names_.insert("broken");
                return;
            }
        }
        if (element == "script" || element == "style") { // holds no elements
            at_ = page_.find("</" + element, at_);
        }
    }

    bool read_attribute(const std::string &element) {
        const std::string name = word();
        if (name.empty()) {
            return false;
        }
        names_.insert(element + " " + name);
        if (page_[at_] != '=') {
            return true;
        }
        const char quote = page_[at_ + 1];
        if (quote != '"' && quote != '\'') {
            return false;
        }
        const std::size_t end = page_.find(quote, at_ + 2);
        const std::string value = page_.substr(at_ + 2, end - at_ - 2);
        const std::set<std::string> linking{"src",  "href",       "action", "xlink:href",
                                            "data", "formaction", "poster", "srcset"};
        if (linking.count(name) > 0 && !value.starts_with('#') && !value.starts_with("data:")) {
            links_.insert(value);
        }
        at_ = std::min(end, page_.size() - 1) + 1;
        return true;
    }

    const std::string &page_;
    std::size_t at_ = 0;
    std::set<std::string> names_;
    std::set<std::string> links_;
};

} // namespace cospot
