#pragma once

#include <string_view>
#include <vector>

#include "engine/model/reading/report.h"
#include "engine/xml/document.h"

namespace halfsplit::model::chart {

/// One element of the subset of SCXML that behaviour files are written in.
struct ElementSpec {
    std::string_view name;
    std::vector<std::string_view> required;  ///< attributes
    std::vector<std::string_view> optional;
    std::vector<std::string_view> outside;  ///< attributes SCXML has and the subset has not
    std::vector<std::string_view> children;
};

/// nullptr where the subset has no such element.
const ElementSpec* find_element(std::string_view name);

/// Elements that act: what stands in <onentry>, <onexit>, <transition>, <if>.
bool is_executable(std::string_view name);

/// Reports attributes and children that do not belong to the element (those SCXML knows by saying that they
/// are outside the subset), required attributes that are missing, and text. The element must be of the
/// subset.
void check_element(const reading::Context& context, const xml::Element& element);

}  // namespace halfsplit::model::chart
