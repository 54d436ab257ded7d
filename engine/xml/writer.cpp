#include "engine/xml/writer.h"

#include <algorithm>
#include <cctype>
#include <pugixml.hpp>
#include <sstream>
#include <stdexcept>

namespace halfsplit::xml {

namespace {

void check_name(const std::string& name) {
    const auto is_start = [](unsigned char letter) { return std::isalpha(letter) != 0 || letter == '_'; };
    const auto is_inside = [&](unsigned char letter) {
        return is_start(letter) || std::isdigit(letter) != 0 || letter == '-' || letter == ':' ||
               letter == '.';
    };
    if (name.empty() || !is_start(static_cast<unsigned char>(name.front())) ||
        !std::all_of(name.begin(), name.end(), is_inside))
        throw std::invalid_argument("no XML name: \"" + name + "\"");
}

/// XML 1.0, section 2.2: of what is below a space only tab and line ends are characters.
std::string without_controls(std::string text) {
    std::erase_if(text, [](char letter) {
        return static_cast<unsigned char>(letter) < 0x20 && letter != '\t' && letter != '\n' &&
               letter != '\r';
    });
    return text;
}

void fill(pugi::xml_node node, const WrittenElement& element) {
    check_name(element.name);
    node.set_name(element.name.c_str());
    for (const auto& [name, value] : element.attributes) {
        check_name(name);
        node.append_attribute(name.c_str()).set_value(without_controls(value).c_str());
    }
    if (!element.text.empty())
        node.append_child(pugi::node_pcdata).set_value(without_controls(element.text).c_str());
    for (const WrittenElement& child : element.children) fill(node.append_child(pugi::node_element), child);
}

}  // namespace

WrittenElement& WrittenElement::add(WrittenElement child) {
    children.push_back(std::move(child));
    return children.back();
}

std::string written(const WrittenElement& root, Declaration declaration) {
    pugi::xml_document document;
    if (declaration == Declaration::with) {
        pugi::xml_node head = document.append_child(pugi::node_declaration);
        head.append_attribute("version").set_value("1.0");
        head.append_attribute("encoding").set_value("UTF-8");
    }
    fill(document.append_child(pugi::node_element), root);
    std::ostringstream out;
    document.save(out, " ", pugi::format_indent | pugi::format_no_declaration, pugi::encoding_utf8);
    return out.str();
}

}  // namespace halfsplit::xml
