#include "engine/model/manual.h"

#include <cmath>
#include <vector>

#include "engine/base/number.h"
#include "engine/model/part_kind.h"
#include "engine/model/structure.h"

namespace halfsplit::model {
namespace {

/// One row of a Markdown table; a bar in a cell would end it.
std::string row(const std::vector<std::string>& cells) {
    std::string text = "|";
    for (const std::string& cell : cells) {
        text += " ";
        for (const char c : cell) text += c == '|' ? std::string("\\|") : std::string(1, c);
        text += " |";
    }
    return text + "\n";
}

std::string table_head(const std::vector<std::string>& titles) {
    return row(titles) + row(std::vector<std::string>(titles.size(), "---"));
}

std::string code(std::string_view text) {
    return text.empty() ? "" : "`" + std::string(text) + "`";
}

std::string with_unit(double number, std::string_view unit) {
    return number_text(number) + (unit.empty() ? "" : " " + std::string(unit));
}

std::string assumed(const NumberSpec& spec) {
    if (spec.required) return "required";
    return std::isnan(spec.fallback) ? "see text" : with_unit(spec.fallback, spec.unit);
}

std::string assumed(const WordSpec& spec) {
    if (spec.required) return "required";
    return code(spec.fallback);
}

std::string choices_of(const WordSpec& spec) {
    if (!spec.refers_to.empty()) return "the id of a " + std::string(spec.refers_to);
    std::string text;
    for (const std::string_view choice : spec.choices) text += (text.empty() ? "" : ", ") + code(choice);
    return text.empty() ? "text" : text;
}

std::string attribute_table(std::span<const NumberSpec> numbers, std::span<const WordSpec> words) {
    if (numbers.empty() && words.empty()) return "";
    std::string text = table_head({"attribute", "assumed", "range", "tolerance", "what it is"});
    for (const NumberSpec& spec : numbers)
        text += row({code(spec.name), assumed(spec),
                     number_text(spec.low) + " to " + with_unit(spec.high, spec.unit),
                     spec.tolerance_percent > 0 ? with_unit(spec.tolerance_percent, "%") : "",
                     std::string(spec.text)});
    for (const WordSpec& spec : words)
        text += row({code(spec.name), assumed(spec), choices_of(spec), "", std::string(spec.text)});
    return text + "\n";
}

std::string pin_list(const PartKind& kind) {
    std::string text;
    for (const PinSpec& pin : kind.pins)
        text +=
            (text.empty() ? "" : ", ") + code(pin.id) + (pin.text.empty() ? "" : " " + std::string(pin.text));
    return text;
}

std::string pin_settings(const PartKind& kind) {
    if (kind.pin_kinds.empty()) return "";
    std::string text = "Each `<pin>` has a `kind`:";
    for (const std::string_view pin_kind : kind.pin_kinds) text += " " + code(pin_kind);
    return text + ".\n\n" + attribute_table(kind.pin_numbers, {});
}

std::string pins(const PartKind& kind) {
    switch (kind.pin_policy) {
        case PinPolicy::single:
            return "Pins: it is one point, named by its id alone.\n\n";
        case PinPolicy::counted:
            return "Pins: as many contacts as `pins` says (1 to " + std::to_string(kMaxCouplingContacts) +
                   "), each with two sides: `1a` and `1b`, `2a` and `2b` …\n\n";
        case PinPolicy::authored:
            return "Pins: those its `<pin id=\"…\"/>` children name" +
                   (kind.pins.empty() ? "" : ", else " + pin_list(kind)) + ".\n\n" + pin_settings(kind);
        case PinPolicy::fixed:
            break;
    }
    return kind.pins.empty() ? "Pins: none.\n\n" : "Pins: " + pin_list(kind) + ".\n\n";
}

std::string_view who_changes_it(Operation operation) {
    switch (operation) {
        case Operation::person:
            return "a hand sets it";
        case Operation::stated:
            return "circumstances set it, so a state may";
        case Operation::triggered:
            return "the part changes it by itself";
        case Operation::none:
            break;
    }
    return "";
}

std::string conditions(const PartKind& kind) {
    if (kind.authored_positions)
        return "Positions: those its `<position id=\"…\">` children name, the first at rest; " +
               std::string(who_changes_it(kind.operation)) +
               ". Each holds the contacts it closes: "
               "`<contact from=\"1\" to=\"2\"/>`.\n\n";
    if (kind.conditions.empty()) return "";
    std::string text;
    for (const ConditionSpec& condition : kind.conditions)
        text += (text.empty() ? "" : ", ") + code(condition.id) +
                (condition.text.empty() ? "" : " (" + std::string(condition.text) + ")");
    const std::string who(who_changes_it(kind.operation));
    return "Conditions, the first at rest: " + text + (who.empty() ? "" : "; " + who) + ".\n\n";
}

/// Where a fault of this kind is written: "part", "part.coil", "part.contact".
std::string fault_place(const FaultSpec& spec, std::string_view whole) {
    if (std::holds_alternative<ContactEffect>(spec.effect)) return "part.contact";
    return spec.element.empty() ? std::string(whole) : "part." + std::string(spec.element);
}

std::string fault_table(std::span<const FaultSpec> faults, std::string_view whole) {
    if (faults.empty()) return "";
    std::string text = table_head({"fault", "where", "value", "range", "rate", "what happens"});
    for (const FaultSpec& spec : faults) {
        const bool has_value = spec.value_high > spec.value_low;
        text += row({code(spec.kind), fault_place(spec, whole),
                     has_value ? with_unit(spec.value, spec.value_unit) : std::string(spec.value_unit),
                     has_value
                         ? number_text(spec.value_low) + " to " + with_unit(spec.value_high, spec.value_unit)
                         : "",
                     number_text(spec.rate), std::string(spec.text)});
    }
    return text + "\n";
}

std::string kind_section(const PartKind& kind) {
    std::string text = "## " + std::string(kind.title) + ": `<" + std::string(kind.element) + ">`\n\n";
    if (!kind.letter.empty()) text += "Letter " + std::string(kind.letter) + ". ";
    text += std::string(kind.text) + "\n\n" + pins(kind) + conditions(kind);
    return text + attribute_table(kind.numbers, kind.words) + fault_table(kind.faults, "part");
}

std::string wire_section() {
    const PartKind& wire = wire_kind();
    return "## Wire: `<wire>` in `<harness>`\n\n" + std::string(wire.text) + "\n\n" +
           attribute_table(structure("wire").numbers, structure("wire").words) +
           attribute_table(wire.numbers, wire.words) + fault_table(wire.faults, "wire");
}

}  // namespace

std::string part_manual(const PartKind& kind) {
    return &kind == &wire_kind() ? wire_section() : kind_section(kind);
}

std::string parts_manual() {
    std::string text =
        "# Part kinds\n\n"
        "Written from the declarations in `engine/model/kinds/`; a test compares. Attributes name their "
        "unit; a "
        "number is written with a decimal point. What is assumed where an author gives nothing, and by how "
        "much "
        "values scatter, stands in the tables. A fault is written `kind:where` or `kind:where=value`.\n\n"
        "## Every part\n\nTakes these besides its own attributes, and `<fault-rate kind=\"…\" where=\"…\" "
        "rate=\"…\"/>` children, `where` being an element, contact or pin of the part.\n\n";
    text += attribute_table(structure("part").numbers, structure("part").words);
    text += attribute_table(common_numbers(), common_words());
    text += "Every plug contact (`M3.1`, `X20.3`):\n\n" + fault_table(contact_faults(), "part.pin");
    text += "Every plug (`M3`, `X20`):\n\n" + fault_table(plug_faults(), "part");
    for (const PartKind* kind : part_kinds()) text += kind_section(*kind);
    text += wire_section();
    while (text.size() > 1 && text[text.size() - 2] == '\n') text.pop_back();
    return text;
}

}  // namespace halfsplit::model
