#pragma once

#include "drawing/label_layout.h"

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>

#include <cstdio>
#include <functional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace cospot {

using boost::property_tree::ptree;

/// Calls `visit` with every element of a picture and how far groups move it down. Throws where it
/// is no well-formed XML.
using VisitElement =
    std::function<void(const std::string &name, const ptree &element, double moved_y)>;
inline void for_each_element(const std::string &svg, const VisitElement &visit) {
    std::istringstream in(svg);
    ptree tree;
    boost::property_tree::read_xml(in, tree);
    const std::function<void(const ptree &, double)> walk = [&](const ptree &parent, double moved) {
        for (const auto &[name, child] : parent) {
            if (name == "<xmlattr>") {
                continue;
            }
            double here = 0.0; // "translate(0 Y)" is the only move that pictures know
            const auto move = child.get<std::string>("<xmlattr>.transform", "");
            if (std::sscanf(move.c_str(), "translate(0 %lf)", &here) != 1 && !move.empty()) {
                throw std::invalid_argument("another move: " + move);
            }
            visit(name, child, moved + here);
            walk(child, moved + here);
        }
    };
    walk(tree, 0.0);
}

/// The first two texts that overlap by the widths that `label_width` assumes; else empty.
inline std::string overlapping_texts(const std::string &svg) {
    std::vector<LabelBox> boxes;
    std::string found;
    for_each_element(svg, [&](const std::string &name, const ptree &element, double moved) {
        if (name != "text") {
            return;
        }
        constexpr double above_baseline = 11.0;
        const auto content = element.get_value<std::string>();
        const auto anchor = element.get<std::string>("<xmlattr>.text-anchor");
        const double width = label_width(content);
        const double left = element.get<double>("<xmlattr>.x") - (anchor == "middle" ? width / 2
                                                                  : anchor == "end"  ? width
                                                                                     : 0.0);
        const LabelBox box{content, left,
                           element.get<double>("<xmlattr>.y") + moved - above_baseline, width,
                           kLabelHeight};
        for (const LabelBox &other : boxes) {
            if (overlap(box, other)) {
                found = box.text + " and " + other.text;
            }
        }
        boxes.push_back(box);
    });
    return found;
}

/// How many groups have exactly those classes.
inline std::size_t marks_of(const std::string &svg, const std::string &classes) {
    std::size_t count = 0;
    for_each_element(svg, [&](const std::string &name, const ptree &element, double) {
        count += name == "g" && element.get<std::string>("<xmlattr>.class", "") == classes ? 1 : 0;
    });
    return count;
}

/// How many elements of that name and class there are.
inline std::size_t elements_of(const std::string &svg, const std::string &element_name,
                               const std::string &style_class) {
    std::size_t count = 0;
    for_each_element(svg, [&](const std::string &name, const ptree &element, double) {
        count +=
            name == element_name && element.get<std::string>("<xmlattr>.class", "") == style_class
                ? 1
                : 0;
    });
    return count;
}

/// A numeric attribute of all elements of that class.
inline std::vector<double> attributes_of(const std::string &svg, const std::string &style_class,
                                         const std::string &attribute) {
    std::vector<double> values;
    for_each_element(svg, [&](const std::string &, const ptree &element, double) {
        if (element.get<std::string>("<xmlattr>.class", "") == style_class) {
            values.push_back(element.get<double>("<xmlattr>." + attribute));
        }
    });
    return values;
}

} // namespace cospot
