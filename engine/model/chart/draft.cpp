#include "engine/model/chart/draft.h"

#include <algorithm>

#include "engine/xml/unicode.h"

namespace halfsplit::model::chart {
namespace {

constexpr std::string_view kSpace = " \t\r\n";

int code_points(std::string_view text) {
    return static_cast<int>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

bool is_event_char(char32_t c) {
    return xml::is_name_char(c) && c != U':';
}

PinUse use_of(Op op) {
    if (op == Op::hertz) return PinUse::hertz;
    return op == Op::amperes ? PinUse::amperes : PinUse::volts;
}

}  // namespace

std::vector<Word> words_of(std::string_view list) {
    std::vector<Word> words;
    std::size_t begin = list.find_first_not_of(kSpace);
    while (begin != std::string_view::npos) {
        const std::size_t end = std::min(list.find_first_of(kSpace, begin), list.size());
        words.push_back({list.substr(begin, end - begin), code_points(list.substr(0, begin)) + 1});
        begin = list.find_first_not_of(kSpace, end);
    }
    return words;
}

std::optional<std::string> event_problem(std::string_view name) {
    const std::string it = "'" + std::string(name) + "'";
    if (name.empty()) return "the event has no name";
    if (name.find_first_of(kSpace) != std::string_view::npos)
        return it + " is no event; one name is expected";
    if (name.front() == '.' || name.back() == '.' || name.find("..") != std::string_view::npos)
        return it + " is no event; a name on each side of every dot is expected";
    for (std::size_t i = 0; i < name.size();) {
        const xml::CodePoint c = xml::code_point_at(name, i);
        if (!is_event_char(c.value)) return it + " is no event; letters, digits, - _ and . are expected";
        i += c.bytes;
    }
    return std::nullopt;
}

std::optional<Expression> read_expression(Draft& draft, const xml::Element& element, std::string_view name,
                                          std::optional<ValueType> wanted) {
    const xml::Attribute* attribute = element.attribute(name);
    if (attribute == nullptr || draft.full()) return std::nullopt;
    auto parsed = parse_expression(attribute->value, draft.scope, wanted);
    if (!parsed) {
        draft.error(*attribute, parsed.error().column, std::string(name) + ": " + parsed.error().message);
        return std::nullopt;
    }
    parsed->where = draft.at(*attribute);
    for (const PinCall& call : parsed->pins)
        draft.chart.pins.push_back(
            {use_of(call.op), call.pin, std::nullopt, draft.at(*attribute, call.column)});
    return std::move(*parsed);
}

}  // namespace halfsplit::model::chart
