#include "engine/model/schema.h"

#include <algorithm>
#include <vector>

#include "engine/model/part_kind.h"
#include "engine/model/schema_writer.h"
#include "engine/model/structure.h"

namespace halfsplit::model {
namespace {

using schema::AttributeWriter;
using schema::Lines;
using schema::write_children;
using schema::write_unique;

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

bool is_written_elsewhere(std::string_view element) {
    return element == "parts" || element == "part" || element == "pin";
}

}  // namespace

std::string circuit_schema() {
    Lines lines;
    schema::open_schema(lines, kCircuitNamespace, "engine/model/");
    for (const StructureSpec& spec : structures())
        if (!is_written_elsewhere(spec.element)) write_structure(lines, spec);
    write_parts(lines);
    for (const PartKind* kind : part_kinds()) write_kind(lines, *kind);
    lines.close();
    return lines.text();
}

}  // namespace halfsplit::model
