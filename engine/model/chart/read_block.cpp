#include "engine/base/number.h"
#include "engine/model/chart/draft.h"
#include "engine/model/chart/read_chart.h"
#include "engine/model/chart/subset.h"

namespace halfsplit::model::chart {
namespace {

/// "" where it is missing or wrong.
std::string read_event(const Draft& draft, const xml::Element& element) {
    const xml::Attribute* event = element.attribute("event");
    if (event == nullptr) return "";
    if (const auto problem = event_problem(event->value))
        draft.error(*event, 1, *problem);
    else if (event->value.starts_with(kPinEvents))
        draft.error(
            *event, 1,
            "'" + event->value + "' cannot be sent: events in.PIN.high and in.PIN.low come from the pins");
    else
        return event->value;
    return "";
}

/// "12s" or "250ms" in s.
tl::expected<double, std::string> read_delay(std::string_view text) {
    const std::string wrong =
        "delay: '" + std::string(text) + "' is no delay; one such as 12s, 0.5s or 250ms is expected";
    const bool milliseconds = text.ends_with("ms");
    if (!milliseconds && !text.ends_with("s")) return tl::unexpected(wrong);
    const auto number = read_number(text.substr(0, text.size() - (milliseconds ? 2 : 1)));
    if (!number || *number < 0) return tl::unexpected(wrong);
    const double delay_s = milliseconds ? *number / 1000 : *number;
    if (delay_s > kMaxDelayS)
        return tl::unexpected("delay: '" + std::string(text) + "' is too long; " + number_text(kMaxDelayS) +
                              "s at most are expected");
    return delay_s;
}

Action read_send(Draft& draft, const xml::Element& element) {
    Send send;
    send.event = read_event(draft, element);
    if (const xml::Attribute* id = element.attribute("id")) {
        if (id->value.empty()) draft.error(*id, 1, "the id is empty; a name for <cancel> is expected");
        send.id = id->value;
    }
    const xml::Attribute* delay = element.attribute("delay");
    const xml::Attribute* expression = element.attribute("delayexpr");
    if (delay != nullptr && expression != nullptr)
        draft.context.error(expression->where, "<send> has a delay and a delayexpr; one of them is expected");
    if (delay != nullptr) {
        const auto delay_s = read_delay(delay->value);
        if (!delay_s)
            draft.error(*delay, 1, delay_s.error());
        else
            send.delay_s = *delay_s;
    }
    send.delay_of = read_expression(draft, element, "delayexpr", ValueType::number);
    return {std::move(send), draft.context.at(element.where)};
}

Action read_log(Draft& draft, const xml::Element& element) {
    const xml::Attribute* label = element.attribute("label");
    if (label == nullptr && element.attribute("expr") == nullptr && element.attributes.empty())
        draft.context.error(element.where, "<log> says nothing; a label, an expr or both are expected");
    return {Log{label == nullptr ? "" : label->value, read_expression(draft, element, "expr")},
            draft.context.at(element.where)};
}

Action read_cancel(const Draft& draft, const xml::Element& element) {
    const xml::Attribute* id = element.attribute("sendid");
    if (id != nullptr && id->value.empty())
        draft.error(*id, 1, "the sendid is empty; the id of a <send> is expected");
    return {Cancel{id == nullptr ? "" : id->value}, draft.context.at(element.where)};
}

void read_action(Draft& draft, const xml::Element& element, Block& block);

/// <elseif> and <else> stand between the actions, not around them.
Action read_if(Draft& draft, const xml::Element& element) {
    If read;
    read.branches.push_back({read_expression(draft, element, "cond", ValueType::boolean), {}});
    bool has_else = false;
    for (const xml::Element& child : element.children) {
        if (child.name != "elseif" && child.name != "else") {
            read_action(draft, child, read.branches.back().actions);
            continue;
        }
        check_element(draft.context, child);
        if (has_else)
            draft.context.error(child.where, "<" + child.name + "> stands behind <else>, which is the last");
        has_else = has_else || child.name == "else";
        read.branches.push_back({read_expression(draft, child, "cond", ValueType::boolean), {}});
    }
    return {std::move(read), draft.context.at(element.where)};
}

void read_action(Draft& draft, const xml::Element& element, Block& block) {
    if (!is_executable(element.name) || draft.full()) return;
    check_element(draft.context, element);
    if (element.name == "assign") {
        if (auto assign = read_assign(draft, element)) block.push_back(std::move(*assign));
    } else if (element.name == "send") {
        block.push_back(read_send(draft, element));
    } else if (element.name == "cancel") {
        block.push_back(read_cancel(draft, element));
    } else if (element.name == "raise") {
        block.push_back({Raise{read_event(draft, element)}, draft.context.at(element.where)});
    } else if (element.name == "log") {
        block.push_back(read_log(draft, element));
    } else {
        block.push_back(read_if(draft, element));
    }
}

}  // namespace

Block read_block(Draft& draft, const xml::Element& element) {
    Block block;
    for (const xml::Element& child : element.children) read_action(draft, child, block);
    return block;
}

}  // namespace halfsplit::model::chart
