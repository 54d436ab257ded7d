#pragma once

#include <utility>
#include <vector>

#include "engine/diagnosis/plan/splitter.h"

namespace halfsplit::diagnosis::plan {

/// Grows a tree from the top: `choose(set, columns)` gives the column to test for each set of at least two
/// classes and may take out of `columns` what tells nothing any more. Returns the number of the first node;
/// `tell` hears how many ends there are so far.
template <typename Choose, typename Tell>
int grow_tree(const SearchSpace& space, const ClassSet& set, DecisionTree& tree, const Choose& choose,
              const Tell& tell) {
    struct Open {
        ClassSet set;
        std::vector<int> columns;
        int node;
    };
    const auto new_node = [&tree] {
        tree.nodes.emplace_back();
        return static_cast<int>(tree.nodes.size()) - 1;
    };
    Splitter splitter(space);
    std::vector<Open> open;
    open.push_back({set, space.all_columns(), new_node()});
    const int first = open.back().node;
    int ends = 0;
    while (!open.empty()) {
        Open now = std::move(open.back());
        open.pop_back();
        if (now.set.size() == 1) {
            tree.nodes[at(now.node)] = end_of(space, now.set.front());
            tell(++ends);
            continue;
        }
        const int column = choose(now.set, now.columns);
        tree.nodes[at(now.node)].test = space.columns[at(column)].test;
        for (const Splitter::Part& part : splitter.split(column, now.set)) {
            open.push_back(
                {splitter.set_of(part), part.count > 1 ? now.columns : std::vector<int>{}, new_node()});
            tree.nodes[at(now.node)].branches.push_back({part.outcome, open.back().node});
        }
    }
    return first;
}

}  // namespace halfsplit::diagnosis::plan
