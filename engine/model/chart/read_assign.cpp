#include <array>

#include "engine/base/nearest.h"
#include "engine/base/number.h"
#include "engine/model/chart/draft.h"

namespace halfsplit::model::chart {
namespace {

constexpr std::string_view kDriverPrefix = "driver.";
constexpr std::string_view kAsleep = "unit.asleep";

/// In the order of Drive.
constexpr std::array<std::string_view, 4> kDriveNames{"off", "on", "high", "low"};

std::optional<Drive> drive_of(std::string_view name) {
    for (std::size_t i = 0; i < kDriveNames.size(); ++i)
        if (kDriveNames[i] == name) return static_cast<Drive>(i);
    return std::nullopt;
}

std::string expected_level() {
    return "expr: 'on', 'off', 'high' or 'low' as it stands, or a number from 0 to 1 is expected";
}

/// A level written out; texts that are computed could not be checked against the driver.
std::optional<Drive> written_drive(const Draft& draft, const xml::Attribute& attribute,
                                   const Expression& value) {
    const std::optional<Drive> drive = value.nodes.size() == 1 && value.nodes.back().op == Op::text
                                           ? drive_of(value.texts.front())
                                           : std::nullopt;
    if (!drive) draft.error(attribute, 1, expected_level());
    return drive;
}

bool is_possible_duty(const Draft& draft, const xml::Attribute& attribute, const Expression& value) {
    const Node& node = value.nodes.front();
    const bool written = value.nodes.size() == 1 && node.op == Op::number;
    if (!written || node.number <= 1) return true;
    draft.error(attribute, 1,
                "expr: " + number_text(node.number) + " is no duty; a number from 0 to 1 is expected");
    return false;
}

std::optional<Action> assign_driver(Draft& draft, const xml::Element& element,
                                    const xml::Attribute& location) {
    const std::string pin = location.value.substr(kDriverPrefix.size());
    auto value = read_expression(draft, element, "expr");
    if (!value) return std::nullopt;
    const xml::Attribute& attribute = *element.attribute("expr");
    AssignDriver assign{pin, Drive::off};
    std::optional<Drive> drive;
    if (value->type() == ValueType::number) {
        if (!is_possible_duty(draft, attribute, *value)) return std::nullopt;
        assign.level = std::move(*value);
    } else {
        drive = value->type() == ValueType::text ? written_drive(draft, attribute, *value) : std::nullopt;
        if (value->type() == ValueType::boolean) draft.error(attribute, 1, expected_level());
        if (!drive) return std::nullopt;
        assign.level = *drive;
    }
    const int pin_column = static_cast<int>(kDriverPrefix.size()) + 1;
    draft.chart.pins.push_back({PinUse::drive, pin, drive, draft.at(location, pin_column)});
    return Action{std::move(assign), draft.context.at(element.where)};
}

std::optional<Action> assign_asleep(Draft& draft, const xml::Element& element) {
    auto value = read_expression(draft, element, "expr", ValueType::boolean);
    if (!value) return std::nullopt;
    return Action{AssignAsleep{std::move(*value)}, draft.context.at(element.where)};
}

std::optional<Action> assign_data(Draft& draft, const xml::Element& element, int data) {
    auto value =
        read_expression(draft, element, "expr", draft.scope.data[static_cast<std::size_t>(data)].type);
    if (!value) return std::nullopt;
    return Action{AssignData{data, std::move(*value)}, draft.context.at(element.where)};
}

void refuse_location(const Draft& draft, const xml::Attribute& location) {
    std::vector<std::string> known{std::string(kAsleep)};
    for (const Scope::Data& data : draft.scope.data) known.push_back(data.name);
    const std::string hint = did_you_mean(location.value, known);
    draft.error(
        location, 1,
        "nothing named '" + location.value + "' can be assigned to" +
            (hint.empty() ? "; a data item declared in <datamodel>, driver.PIN or unit.asleep is expected"
                          : hint));
}

}  // namespace

std::optional<Action> read_assign(Draft& draft, const xml::Element& element) {
    const xml::Attribute* location = element.attribute("location");
    if (location == nullptr) {
        read_expression(draft, element, "expr");
        return std::nullopt;
    }
    const std::string& name = location->value;
    if (name.starts_with(kDriverPrefix) && name.size() > kDriverPrefix.size())
        return assign_driver(draft, element, *location);
    if (name == kAsleep) return assign_asleep(draft, element);
    for (std::size_t i = 0; i < draft.scope.data.size(); ++i)
        if (draft.scope.data[i].name == name && !name.empty())
            return assign_data(draft, element, static_cast<int>(i));
    refuse_location(draft, *location);
    read_expression(draft, element, "expr");
    return std::nullopt;
}

}  // namespace halfsplit::model::chart
