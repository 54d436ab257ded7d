#include <algorithm>

#include "engine/model/chart/draft.h"
#include "engine/model/chart/read_chart.h"
#include "engine/model/chart/subset.h"

namespace halfsplit::model::chart {
namespace {

std::vector<const xml::Element*> data_elements(const Draft& draft) {
    std::vector<const xml::Element*> found;
    for (const xml::Element* state : draft.sources)
        for (const xml::Element& child : state->children) {
            if (child.name != "datamodel" || state->name == "final") continue;
            check_element(draft.context, child);
            for (const xml::Element& data : child.children)
                if (data.name == "data") found.push_back(&data);
        }
    return found;
}

/// "" where it is missing or wrong.
std::string read_name(const Draft& draft, const xml::Element& element) {
    const xml::Attribute* id = element.attribute("id");
    if (id == nullptr) return "";
    const auto same = std::find_if(draft.chart.data.begin(), draft.chart.data.end(),
                                   [&](const DataItem& item) { return item.name == id->value; });
    if (!is_data_name(id->value))
        draft.error(*id, 1,
                    "'" + id->value +
                        "' cannot name a data item; letters, digits and _ are expected, a letter first, "
                        "and no word of the expression language");
    else if (same != draft.chart.data.end())
        draft.error(*id, 1, "the data item " + id->value + " is already at " + reading::to_text(same->where));
    else
        return id->value;
    return "";
}

bool uses_wrong_data(const Expression& expression, const Scope& scope) {
    return std::any_of(expression.nodes.begin(), expression.nodes.end(), [&](const Node& node) {
        return node.op == Op::data && !scope.data[static_cast<std::size_t>(node.index)].type;
    });
}

}  // namespace

void read_data(Draft& draft) {
    auto elements = data_elements(draft);
    if (elements.size() > static_cast<std::size_t>(kMaxDataItems)) {
        draft.context.error(elements[kMaxDataItems]->where,
                            "there are more than " + std::to_string(kMaxDataItems) + " data items");
        elements.resize(kMaxDataItems);
    }
    for (const xml::Element* element : elements) {
        check_element(draft.context, *element);
        const std::string name = read_name(draft, *element);
        draft.chart.data.push_back({name, {}, draft.context.at(element->where)});
        draft.scope.data.push_back({name, std::nullopt, false});
    }
    for (std::size_t i = 0; i < elements.size(); ++i) {
        auto initial = read_expression(draft, *elements[i], "expr");
        Scope::Data& data = draft.scope.data[i];
        data.ready = true;
        if (!initial) continue;
        if (!uses_wrong_data(*initial, draft.scope)) data.type = initial->type();
        draft.chart.data[i].initial = std::move(*initial);
    }
}

}  // namespace halfsplit::model::chart
