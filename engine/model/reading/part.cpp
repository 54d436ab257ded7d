#include "engine/model/reading/part.h"

#include <algorithm>
#include <cmath>

#include "engine/base/nearest.h"
#include "engine/base/number.h"

namespace halfsplit::model::reading {
namespace {

constexpr int kMaxGrid = 10'000;  // columns and rows of the diagram
constexpr std::string_view kNoPlug = "none";

Fields part_fields(const Context& context, const xml::Element& element, const PartKind& kind) {
    std::vector<Declared> declared{
        declared_by(structure("part")), {kind.numbers, kind.words}, {common_numbers(), common_words()}};
    if (kind.pin_policy == PinPolicy::counted) declared.push_back({{&contact_count(), 1}, {}});
    return {context, element, declared};
}

void take_numbers(const Fields& fields, Part& part) {
    const bool one_tolerance = fields.gives("tolerance-percent");
    for (const NumberSpec& spec : part.kind->numbers) {
        part.numbers.push_back(fields.number(spec.name));
        part.tolerance_percent.push_back(one_tolerance ? fields.number("tolerance-percent")
                                                       : spec.tolerance_percent);
    }
    part.contact_ohm = fields.gives("contact-ohm") ? fields.number("contact-ohm") : part.kind->contact_ohm;
}

void take_plug(Fields& fields, Part& part) {
    part.plugged = part.kind->plugged;
    if (!fields.gives("plug")) return;
    part.plugged = fields.word("plug") != kNoPlug;
    if (part.plugged) part.plug = fields.name_word("plug");
}

/// at="column row"
void take_grid_place(Fields& fields, Part& part) {
    if (!fields.gives("at")) return;
    const std::string text = fields.word("at");
    const std::size_t space = text.find(' ');
    const auto column = read_whole_number(text.substr(0, space), 0, kMaxGrid);
    const auto row = space == std::string::npos ? tl::unexpected(std::string())
                                                : read_whole_number(text.substr(space + 1), 0, kMaxGrid);
    if (column && row)
        part.at = GridPlace{*column, *row};
    else
        fields.refuse("at", "at: '" + text +
                                "' is no grid place; column and row, two whole numbers from 0 to " +
                                std::to_string(kMaxGrid) + " with a space between, are expected");
}

void refuse_other_children(const Context& context, const xml::Element& element, const PartKind& kind) {
    refuse_text(context, element);
    if (element.children.size() > kMaxPartChildren)
        context.error(element.where, "<" + element.name + "> has more than " +
                                         std::to_string(kMaxPartChildren) +
                                         " pins, positions and fault rates");
    std::vector<std::string_view> known{"fault-rate"};
    if (kind.pin_policy == PinPolicy::authored) known.emplace_back("pin");
    if (kind.authored_positions) known.emplace_back("position");
    for (const xml::Element& child : element.children)
        if (std::find(known.begin(), known.end(), child.name) == known.end())
            refuse_unknown_child(context, element, child, known);
}

const PartKind* kind_of(const Context& context, const xml::Element& element) {
    if (const PartKind* kind = find_part_kind(element.name)) return kind;
    std::vector<std::string_view> known;
    for (const PartKind* kind : part_kinds()) known.push_back(kind->element);
    context.error(element.where, "<" + element.name + "> is no kind of part" +
                                     (did_you_mean(element.name, known).empty()
                                          ? "; expected is one of those in circuits/PARTS.md"
                                          : did_you_mean(element.name, known)));
    return nullptr;
}

}  // namespace

std::optional<Part> read_part(const Context& context, const xml::Element& element) {
    const PartKind* kind = kind_of(context, element);
    if (kind == nullptr) return std::nullopt;
    const std::size_t errors_before = context.report.size();
    Fields fields = part_fields(context, element, *kind);
    Part part;
    part.kind = kind;
    part.where = fields.where();
    part.id = fields.name_word("id");
    part.title = fields.gives("title") ? fields.word("title") : std::string(kind->title);
    part.place = fields.word("place");
    take_numbers(fields, part);
    for (const WordSpec& spec : kind->words) part.words.push_back(fields.word(spec.name));
    take_plug(fields, part);
    take_grid_place(fields, part);
    refuse_other_children(context, element, *kind);
    if (fields.gives("pins") && std::floor(fields.number("pins")) != fields.number("pins"))
        fields.refuse("pins", "pins: a whole number of contacts is expected");
    part.pins = read_pins(context, element, *kind);
    part.positions = read_positions(context, element, part);
    part.fault_rates = read_fault_rates(context, element);
    if (context.report.size() != errors_before) return std::nullopt;
    check_values_together(context, element, part);
    check_fault_rates(context, element, part);
    if (context.report.size() != errors_before) return std::nullopt;
    return part;
}

double part_number(const Part& part, std::string_view name) {
    for (std::size_t i = 0; i < part.kind->numbers.size(); ++i)
        if (part.kind->numbers[i].name == name) return part.numbers[i];
    return std::numeric_limits<double>::quiet_NaN();
}

}  // namespace halfsplit::model::reading
