#include <algorithm>
#include <map>

#include "engine/model/chart/draft.h"
#include "engine/model/chart/read_chart.h"
#include "engine/model/chart/subset.h"
#include "engine/xml/unicode.h"

namespace halfsplit::model::chart {
namespace {

bool is_state(const xml::Element& element) {
    return element.name == "state" || element.name == "parallel" || element.name == "final";
}

class StateReader {
  public:
    explicit StateReader(Draft& draft) : draft_(draft) {}

    /// Recurses as deep as the file nests, which the XML reader limits.
    int read(const xml::Element& element, int parent) {
        const int index = static_cast<int>(draft_.chart.states.size());
        State added;
        added.id = parent < 0 ? "" : read_id(element, index);
        added.parent = parent;
        added.where = draft_.context.at(element.where);
        draft_.chart.states.push_back(std::move(added));
        draft_.scope.states.push_back(draft_.chart.states.back().id);
        draft_.sources.push_back(&element);
        const ElementSpec& spec = *find_element(element.name);
        std::vector<int> children;
        for (const xml::Element& child : element.children) {
            const bool belongs =
                std::find(spec.children.begin(), spec.children.end(), child.name) != spec.children.end();
            if (belongs && is_state(child) && may_add(child)) children.push_back(read(child, index));
        }
        State& state = draft_.chart.states[static_cast<std::size_t>(index)];
        state.kind = kind_of(element, !children.empty());
        state.children = std::move(children);
        state.last = static_cast<int>(draft_.chart.states.size()) - 1;
        return index;
    }

  private:
    static StateKind kind_of(const xml::Element& element, bool has_children) {
        if (element.name == "scxml") return StateKind::root;
        if (element.name == "parallel") return StateKind::parallel;
        if (element.name == "final") return StateKind::final;
        return has_children ? StateKind::compound : StateKind::atomic;
    }

    bool may_add(const xml::Element& element) {
        if (draft_.chart.states.size() <= static_cast<std::size_t>(kMaxStates)) return true;
        if (!full_)
            draft_.context.error(element.where, "there are more than " + std::to_string(kMaxStates) +
                                                    " states; a smaller chart is expected");
        full_ = true;
        return false;
    }

    /// "" where there is no good one.
    std::string read_id(const xml::Element& element, int index) {
        const xml::Attribute* id = element.attribute("id");
        if (id == nullptr) return "";
        if (!xml::is_name(id->value)) {
            draft_.error(
                *id, 1,
                "'" + id->value + "' is no id; letters, digits, - _ and . are expected, no digit first");
            return "";
        }
        const auto [first, added] = ids_.try_emplace(id->value, index);
        if (added) return id->value;
        draft_.error(*id, 1,
                     "the state " + id->value + " is already at " +
                         reading::to_text(draft_.chart.state(first->second).where));
        return "";
    }

    Draft& draft_;
    std::map<std::string, int, std::less<>> ids_;
    bool full_ = false;
};

}  // namespace

void read_states(Draft& draft, const xml::Element& root) {
    StateReader(draft).read(root, -1);
    for (std::size_t i = 0; i < draft.sources.size(); ++i) {
        const xml::Element& element = *draft.sources[i];
        check_element(draft.context, element);
        if (element.name != "scxml" && element.name != "parallel") continue;
        if (draft.chart.states[i].children.empty())
            draft.context.error(element.where,
                                "<" + element.name + "> has no states; at least one is expected");
    }
}

}  // namespace halfsplit::model::chart
