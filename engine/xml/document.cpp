#include "engine/xml/document.h"

#include <algorithm>
#include <pugixml.hpp>

#include "engine/xml/cursor.h"
#include "engine/xml/limits.h"
#include "engine/xml/scan.h"
#include "engine/xml/unicode.h"

namespace halfsplit::xml {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr std::string_view kSchemaInstance = "http://www.w3.org/2001/XMLSchema-instance";

std::string_view without_byte_order_mark(std::string_view text) {
    return text.starts_with(kByteOrderMark) ? text.substr(kByteOrderMark.size()) : text;
}

std::string trimmed(std::string_view text) {
    const std::size_t begin = text.find_first_not_of(" \t\r\n");
    if (begin == std::string_view::npos) return "";
    return std::string(text.substr(begin, text.find_last_not_of(" \t\r\n") - begin + 1));
}

/// Copies the library's tree, adding the positions found in the text: both are in the order of the text.
class TreeBuilder {
  public:
    TreeBuilder(const Markup& markup, const std::string& file, std::string_view name_space)
        : markup_(markup), file_(file), name_space_(name_space) {}

    Element build(const pugi::xml_node& node) {
        Element element;
        element.name = node.name();
        const Markup::ElementMarks& marks = markup_.elements.at(next_element_++);
        element.where = marks.tag;
        element.text_where = marks.text;
        const bool is_root = next_element_ == 1;
        bool name_space_given = false;
        for (const pugi::xml_attribute& attribute : node.attributes()) {
            const Markup::AttributeMarks& at = markup_.attributes.at(next_attribute_++);
            const Attribute copy{attribute.name(), attribute.value(), at.name, at.value, at.value_offset};
            if (copy.name == "xmlns") {
                name_space_given = true;
                if (copy.value != name_space_) refuse(copy.where, expected_name_space());
            } else if (!(is_root && is_editor_hint(copy))) {
                keep(element, copy);
            }
        }
        if (is_root && !name_space_given) refuse(element.where, expected_name_space());
        build_content(element, node);
        return element;
    }

    Diagnostics errors() const { return errors_; }

  private:
    void build_content(Element& element, const pugi::xml_node& node) {
        std::string text;
        for (const pugi::xml_node& child : node.children()) {
            if (child.type() == pugi::node_element)
                element.children.push_back(build(child));
            else if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata)
                text += child.value();
        }
        element.text = trimmed(text);
        if (element.text.empty()) element.text_where = {};
    }

    void keep(Element& element, const Attribute& attribute) {
        if (attribute.name.find(':') == std::string::npos)
            element.attributes.push_back(attribute);
        else
            refuse(attribute.where, attribute.name + " has a prefix; attributes without prefix are expected");
    }

    static bool is_editor_hint(const Attribute& attribute) {
        return (attribute.name == "xmlns:xsi" && attribute.value == kSchemaInstance) ||
               attribute.name == "xsi:schemaLocation";
    }

    std::string expected_name_space() const {
        return "the namespace xmlns=\"" + std::string(name_space_) + "\" is expected";
    }

    void refuse(Mark where, std::string message) {
        if (errors_.size() < kMaxErrors)
            errors_.push_back({{file_, where.line, where.column}, std::move(message)});
    }

    const Markup& markup_;
    const std::string& file_;
    std::string_view name_space_;
    std::size_t next_element_ = 0;
    std::size_t next_attribute_ = 0;
    Diagnostics errors_;
};

tl::unexpected<Diagnostics> one_error(const std::string& file, Mark where, std::string message) {
    return tl::unexpected(Diagnostics{{{file, where.line, where.column}, std::move(message)}});
}

Mark mark_at(std::string_view text, std::size_t offset) {
    Cursor cursor(text);
    cursor.advance(offset);
    return cursor.mark();
}

}  // namespace

const Attribute* Element::attribute(std::string_view attribute_name) const {
    const auto found = std::find_if(attributes.begin(), attributes.end(),
                                    [&](const Attribute& a) { return a.name == attribute_name; });
    return found == attributes.end() ? nullptr : &*found;
}

tl::expected<Document, Diagnostics> read_document(std::string_view text, const std::string& file,
                                                  std::string_view name_space) {
    if (text.size() > kMaxBytes)
        return one_error(
            file, {1, 1},
            "the file is too large; " + std::to_string(kMaxBytes >> 20U) + " MiB at most are expected");
    text = without_byte_order_mark(text);
    if (const auto wrong = find_encoding_error(text))
        return one_error(file, mark_at(text, wrong->offset), wrong->message);
    const auto markup = scan_markup(text, file);
    if (!markup) return tl::unexpected(markup.error());

    pugi::xml_document tree;
    const pugi::xml_parse_result result =
        tree.load_buffer(text.data(), text.size(), pugi::parse_default, pugi::encoding_utf8);
    if (!result)
        return one_error(file, mark_at(text, static_cast<std::size_t>(result.offset)), result.description());
    TreeBuilder builder(*markup, file, name_space);
    Document document{file, builder.build(tree.document_element()),
                      static_cast<int>(markup->elements.size())};
    if (!builder.errors().empty()) return tl::unexpected(builder.errors());
    return document;
}

Mark mark_in_value(std::string_view text, const Attribute& attribute, int column) {
    Cursor cursor(without_byte_order_mark(text).substr(attribute.value_offset));
    for (int i = 1; i < column && !cursor.at_end(); ++i) {
        if (cursor.peek() == '&' && !cursor.advance_to(";")) break;
        cursor.advance(cursor.sees("\r\n") ? 2 : code_point_at(cursor.rest(), 0).bytes);
    }
    const Mark within = cursor.mark();
    const Mark begin = attribute.value_where;
    if (within.line == 1) return {begin.line, begin.column + within.column - 1};
    return {begin.line + within.line - 1, within.column};
}

}  // namespace halfsplit::xml
