#include "engine/model/schema_writer.h"

#include <algorithm>

#include "engine/base/number.h"

namespace halfsplit::model::schema {

namespace {

constexpr std::string_view kIndent = "  ";

std::string escaped(std::string_view text) {
    std::string result;
    for (const char c : text) {
        if (c == '&')
            result += "&amp;";
        else if (c == '<')
            result += "&lt;";
        else if (c == '"')
            result += "&quot;";
        else
            result += c;
    }
    return result;
}

std::string attribute_head(std::string_view name, bool required) {
    return "name=\"" + std::string(name) + "\"" + (required ? " use=\"required\"" : "");
}

void write_number(Lines& lines, const NumberSpec& spec) {
    const std::string unit = spec.unit.empty() ? "" : " [" + std::string(spec.unit) + "]";
    lines.open("xs:attribute", attribute_head(spec.name, spec.required));
    lines.document(std::string(spec.text) + unit);
    lines.open("xs:simpleType");
    lines.open("xs:restriction", "base=\"number\"");
    lines.add("<xs:minInclusive value=\"" + number_text(spec.low) + "\"/>");
    lines.add("<xs:maxInclusive value=\"" + number_text(spec.high) + "\"/>");
    lines.close();
    lines.close();
    lines.close();
}

void write_word(Lines& lines, const WordSpec& spec, bool is_name) {
    if (spec.choices.empty()) {
        const std::string type = is_name ? "name" : spec.required ? "filled" : "xs:string";
        lines.open("xs:attribute", attribute_head(spec.name, spec.required) + " type=\"" + type + "\"");
        lines.document(spec.text);
        lines.close();
        return;
    }
    lines.open("xs:attribute", attribute_head(spec.name, spec.required));
    lines.document(spec.text);
    lines.open("xs:simpleType");
    lines.open("xs:restriction", "base=\"xs:string\"");
    for (const std::string_view choice : spec.choices)
        lines.add("<xs:enumeration value=\"" + escaped(choice) + "\"/>");
    lines.close();
    lines.close();
    lines.close();
}

std::string occurs(const ChildSpec& child) {
    return std::string(" minOccurs=\"") + (child.required ? "1" : "0") + "\"" +
           (child.repeated ? " maxOccurs=\"unbounded\"" : "");
}

}  // namespace

void Lines::add(const std::string& line) {
    for (std::size_t i = 0; i < open_.size(); ++i) text_ += kIndent;
    text_ += line + "\n";
}

void Lines::open(const std::string& name, const std::string& attributes) {
    add("<" + name + (attributes.empty() ? "" : " " + attributes) + ">");
    open_.push_back(name);
}

void Lines::close() {
    const std::string name = open_.back();
    open_.pop_back();
    add("</" + name + ">");
}

void Lines::document(std::string_view text) {
    if (!text.empty())
        add("<xs:annotation><xs:documentation>" + escaped(text) + "</xs:documentation></xs:annotation>");
}

bool AttributeWriter::is_new(std::string_view name) {
    if (std::find(written.begin(), written.end(), name) != written.end()) return false;
    written.push_back(name);
    return true;
}

void AttributeWriter::write(std::span<const NumberSpec> numbers, std::span<const WordSpec> words) {
    for (const WordSpec& spec : words)
        if (is_new(spec.name)) write_word(lines, spec, ids_are_names && spec.name == "id");
    for (const NumberSpec& spec : numbers)
        if (is_new(spec.name)) write_number(lines, spec);
}

void write_unique(Lines& lines, const std::string& name, const std::string& selector) {
    lines.open("xs:unique", "name=\"" + name + "\"");
    lines.add("<xs:selector xpath=\"" + selector + "\"/>");
    lines.add("<xs:field xpath=\"@id\"/>");
    lines.close();
}

void write_children(Lines& lines, const std::vector<ChildSpec>& children, bool ordered) {
    if (children.empty()) return;
    if (ordered)
        lines.open("xs:sequence");
    else
        lines.open("xs:choice", R"(minOccurs="0" maxOccurs="unbounded")");
    for (const ChildSpec& child : children)
        lines.add("<xs:element ref=\"" + std::string(child.element) + "\"" + (ordered ? occurs(child) : "") +
                  "/>");
    lines.close();
}

void write_simple_types(Lines& lines) {
    lines.open("xs:simpleType", "name=\"number\"");
    lines.open("xs:restriction", "base=\"xs:double\"");
    lines.add(R"(<xs:pattern value="-?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+\-]?[0-9]+)?"/>)");
    lines.close();
    lines.close();
    lines.open("xs:simpleType", "name=\"name\"");
    lines.open("xs:restriction", "base=\"xs:NCName\"");
    lines.close();
    lines.close();
    lines.open("xs:simpleType", "name=\"filled\"");
    lines.open("xs:restriction", "base=\"xs:string\"");
    lines.add(R"(<xs:minLength value="1"/>)");
    lines.close();
    lines.close();
}

void open_schema(Lines& lines, std::string_view name_space, const std::string& origin) {
    lines.add(R"(<?xml version="1.0" encoding="UTF-8"?>)");
    lines.add("<!-- Written from the declarations in " + origin + "; a test compares. -->");
    const std::string name(name_space);
    lines.open("xs:schema", "xmlns:xs=\"http://www.w3.org/2001/XMLSchema\" xmlns=\"" + name +
                                "\" xmlns:c=\"" + name + "\" targetNamespace=\"" + name +
                                "\" elementFormDefault=\"qualified\"");
    write_simple_types(lines);
}

std::string written_schema(std::string_view name_space, const std::string& origin,
                           std::span<const StructureSpec> structures) {
    Lines lines;
    open_schema(lines, name_space, origin);
    for (const StructureSpec& spec : structures) {
        lines.open("xs:element", "name=\"" + std::string(spec.element) + "\"");
        lines.document(spec.text);
        lines.open("xs:complexType", spec.has_text ? "mixed=\"true\"" : "");
        write_children(lines, spec.children, spec.ordered);
        AttributeWriter attributes{lines};
        attributes.write(spec.numbers, spec.words);
        lines.close();
        lines.close();
    }
    lines.close();
    return lines.text();
}

}  // namespace halfsplit::model::schema
