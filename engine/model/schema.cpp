#include "engine/model/schema.h"

#include <algorithm>
#include <vector>

#include "engine/base/number.h"
#include "engine/model/part_kind.h"
#include "engine/model/structure.h"

namespace halfsplit::model {
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

/// Lines of XML, indented by how many elements are open.
class Lines {
  public:
    void add(const std::string& line) {
        for (std::size_t i = 0; i < open_.size(); ++i) text_ += kIndent;
        text_ += line + "\n";
    }
    void open(const std::string& name, const std::string& attributes = "") {
        add("<" + name + (attributes.empty() ? "" : " " + attributes) + ">");
        open_.push_back(name);
    }
    void close() {
        const std::string name = open_.back();
        open_.pop_back();
        add("</" + name + ">");
    }
    void document(std::string_view text) {
        if (!text.empty())
            add("<xs:annotation><xs:documentation>" + escaped(text) + "</xs:documentation></xs:annotation>");
    }
    const std::string& text() const { return text_; }

  private:
    std::string text_;
    std::vector<std::string> open_;
};

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

/// Attributes of several lists; where lists share a name, the first declares it.
struct AttributeWriter {
    Lines& lines;
    bool ids_are_names = true;
    std::vector<std::string_view> written = {};

    bool is_new(std::string_view name) {
        if (std::find(written.begin(), written.end(), name) != written.end()) return false;
        written.push_back(name);
        return true;
    }
    void write(std::span<const NumberSpec> numbers, std::span<const WordSpec> words) {
        for (const WordSpec& spec : words)
            if (is_new(spec.name)) write_word(lines, spec, ids_are_names && spec.name == "id");
        for (const NumberSpec& spec : numbers)
            if (is_new(spec.name)) write_number(lines, spec);
    }
};

std::string occurs(const ChildSpec& child) {
    return std::string(" minOccurs=\"") + (child.required ? "1" : "0") + "\"" +
           (child.repeated ? " maxOccurs=\"unbounded\"" : "");
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

void write_structure(Lines& lines, const StructureSpec& spec) {
    lines.open("xs:element", "name=\"" + std::string(spec.element) + "\"");
    lines.document(spec.text);
    lines.open("xs:complexType", spec.has_text ? "mixed=\"true\"" : "");
    write_children(lines, spec.children, spec.ordered);
    AttributeWriter attributes{lines, spec.element != "same"};
    attributes.write(spec.numbers, spec.words);
    if (spec.element == "wire") attributes.write(wire_kind().numbers, wire_kind().words);
    lines.close();
    if (spec.element == "circuit") {
        write_unique(lines, "thing-ids", "c:parts/*|c:harness/c:wire|c:quantities/c:quantity");
        write_unique(lines, "place-ids", "c:places/c:place");
        write_unique(lines, "state-ids", "c:operating-states/c:state");
    }
    lines.close();
}

void write_parts(Lines& lines) {
    lines.open("xs:element", "name=\"parts\"");
    lines.document(structure("parts").text);
    lines.open("xs:complexType");
    lines.open("xs:choice", R"(minOccurs="0" maxOccurs="unbounded")");
    for (const PartKind* kind : part_kinds())
        lines.add("<xs:element ref=\"" + std::string(kind->element) + "\"/>");
    lines.close();
    lines.close();
    lines.close();
}

/// The kind's own pin element: its settings depend on the kind.
void write_pin(Lines& lines, const PartKind& kind) {
    lines.open("xs:element", R"(name="pin")");
    lines.document(structure("pin").text);
    lines.open("xs:complexType");
    AttributeWriter attributes{lines, false};
    attributes.write(structure("pin").numbers, structure("pin").words);
    if (!kind.pin_kinds.empty()) {
        const WordSpec pin_kind{.name = "kind",
                                .choices = kind.pin_kinds,
                                .fallback = "",
                                .text = "what it is",
                                .required = true};
        attributes.write({}, {&pin_kind, 1});
    }
    attributes.write(kind.pin_numbers, {});
    lines.close();
    lines.close();
}

void write_kind(Lines& lines, const PartKind& kind) {
    lines.open("xs:element", "name=\"" + std::string(kind.element) + "\"");
    lines.document(kind.text);
    lines.open("xs:complexType");
    lines.open("xs:choice", R"(minOccurs="0" maxOccurs="unbounded")");
    if (kind.pin_policy == PinPolicy::authored) write_pin(lines, kind);
    if (kind.authored_positions) lines.add("<xs:element ref=\"position\"/>");
    lines.add("<xs:element ref=\"fault-rate\"/>");
    lines.close();
    AttributeWriter attributes{lines};
    attributes.write({}, structure("part").words);
    if (kind.pin_policy == PinPolicy::counted) attributes.write({&contact_count(), 1}, {});
    attributes.write(kind.numbers, kind.words);
    attributes.write(common_numbers(), common_words());
    lines.close();
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

bool is_written_elsewhere(std::string_view element) {
    return element == "parts" || element == "part" || element == "pin";
}

}  // namespace

std::string circuit_schema() {
    Lines lines;
    lines.add(R"(<?xml version="1.0" encoding="UTF-8"?>)");
    lines.add("<!-- Written from the declarations in engine/model/; a test compares. -->");
    const std::string name_space(kCircuitNamespace);
    lines.open("xs:schema", "xmlns:xs=\"http://www.w3.org/2001/XMLSchema\" xmlns=\"" + name_space +
                                "\" xmlns:c=\"" + name_space + "\" targetNamespace=\"" + name_space +
                                "\" elementFormDefault=\"qualified\"");
    write_simple_types(lines);
    for (const StructureSpec& spec : structures())
        if (!is_written_elsewhere(spec.element)) write_structure(lines, spec);
    write_parts(lines);
    for (const PartKind* kind : part_kinds()) write_kind(lines, *kind);
    lines.close();
    return lines.text();
}

}  // namespace halfsplit::model
