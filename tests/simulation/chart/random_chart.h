#pragma once

#include <random>
#include <string>
#include <vector>

namespace halfsplit::test {

/// The inside of an <scxml> with states nested up to four deep, transitions of all kinds among them, and a
/// log of every entry, exit and transition. Internal transitions have events that begin with "internal".
class RandomChart {
  public:
    explicit RandomChart(unsigned seed) : random_(seed) {}

    std::string text() {
        states_.push_back({"", "scxml", {}});
        grow(0, 1);
        std::string inside;
        for (const int child : states_[0].children) inside += element(child);
        return inside;
    }

  private:
    struct Drawn {
        std::string id;
        std::string kind;
        std::vector<int> children;
    };

    int below(int limit) { return static_cast<int>(random_() % static_cast<unsigned>(limit)); }
    bool one_in(int count) { return below(count) == 0; }
    const Drawn& at(int index) const { return states_[static_cast<std::size_t>(index)]; }

    void grow(int parent, int depth) {
        const int count = 1 + below(3);
        for (int i = 0; i < count; ++i) {
            std::string kind = "state";
            if (depth < 4 && one_in(3))
                kind = "parallel";
            else if (at(parent).kind != "parallel" && i > 0 && one_in(3))
                kind = "final";
            const int index = static_cast<int>(states_.size());
            states_.push_back({"s" + std::to_string(index), kind, {}});
            states_[static_cast<std::size_t>(parent)].children.push_back(index);
            if (kind == "parallel" || (kind == "state" && depth < 4 && !one_in(3))) grow(index, depth + 1);
        }
    }

    int any_inside(int index) {
        const auto& children = at(index).children;
        if (children.empty()) return index;
        const int child = children[static_cast<std::size_t>(below(static_cast<int>(children.size())))];
        return one_in(2) ? child : any_inside(child);
    }

    std::string any_id() { return at(1 + below(static_cast<int>(states_.size()) - 1)).id; }

    /// One state inside `index`, or some in different regions of a parallel state there.
    std::string targets_inside(int index) {
        const int target = any_inside(index);
        const auto& regions = at(target).children;
        if (at(target).kind != "parallel" || one_in(3)) return at(target).id;
        std::string ids;
        for (const int region : regions)
            if (one_in(2)) ids = at(one_in(2) ? region : any_inside(region)).id + " " + ids;
        return ids.empty() ? at(target).id : ids;
    }

    std::string transition(int source) {
        static const std::vector<std::string> kEvents{"a",   "b", "c",          "a.x", "b.*",
                                                      "a c", "*", "done.state", "r"};
        const bool internal = one_in(5);
        const bool eventless = !internal && one_in(8);
        std::string text = "<transition";
        if (internal)
            text += " type=\"internal\" event=\"internal a\"";
        else if (!eventless)
            text += " event=\"" + kEvents[static_cast<std::size_t>(below(static_cast<int>(kEvents.size())))] +
                    "\"";
        if (eventless || one_in(4))
            text += std::string(" cond=\"") + (one_in(2) ? "not " : "") + "In('" + any_id() + "')\"";
        if (eventless || !one_in(5)) text += " target=\"" + targets_inside(internal ? source : 0) + "\"";
        text += "><log label=\"t" + std::to_string(transitions_++) + "\"/>";
        return text + (one_in(6) ? "<raise event=\"r\"/>" : "") + "</transition>";
    }

    std::string element(int index) {
        const Drawn& state = at(index);
        std::string text = "<" + state.kind + " id=\"" + state.id + "\"";
        if (state.kind == "state" && !state.children.empty() && one_in(2))
            text += " initial=\"" + targets_inside(index) + "\"";
        text += "><onentry><log label=\"+" + state.id + "\"/></onentry><onexit><log label=\"-" + state.id +
                "\"/></onexit>";
        const int count = state.kind == "final" ? 0 : below(4);
        for (int i = 0; i < count; ++i) text += transition(index);
        for (const int child : state.children) text += element(child);
        return text + "</" + state.kind + ">\n";
    }

    std::minstd_rand random_;
    std::vector<Drawn> states_;
    int transitions_ = 0;
};

}  // namespace halfsplit::test
