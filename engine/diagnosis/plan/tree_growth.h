#pragma once

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include "engine/diagnosis/plan/splitter.h"

namespace halfsplit::diagnosis::plan {

/// Grows the tree for all classes from the top: `choose(set, columns)` gives the column to test for each set
/// of at least two classes and may take out of `columns` what tells nothing any more; `tell` hears how many
/// ends there are so far.
template <typename Choose, typename Tell>
DecisionTree grow_tree(const SearchSpace& space, const Choose& choose, const Tell& tell) {
    struct Open {
        ClassSet set;
        std::vector<int> columns;
        int node;
    };
    DecisionTree tree;
    tree.nodes.emplace_back();
    Splitter splitter(space);
    std::vector<Open> open;
    open.push_back({space.all_classes(), space.all_columns(), 0});
    int ends = 0;
    while (!open.empty()) {
        Open now = std::move(open.back());
        open.pop_back();
        tell(ends);
        if (now.set.size() == 1) {
            tree.nodes[at(now.node)] = end_of(space, now.set.front());
            ++ends;
            continue;
        }
        const int column = choose(now.set, now.columns);
        DecisionTree::Node test{space.columns[at(column)].test, {}, {}};
        for (const Splitter::Part& part : splitter.split(column, now.set)) {
            const int node = static_cast<int>(tree.nodes.size());
            tree.nodes.emplace_back();
            test.branches.push_back({part.outcome, node});
            open.push_back({splitter.set_of(part), part.count > 1 ? now.columns : std::vector<int>{}, node});
        }
        // The smallest next: so the ends show how far it is.
        std::sort(open.end() - static_cast<std::ptrdiff_t>(test.branches.size()), open.end(),
                  [](const Open& a, const Open& b) { return a.set.size() > b.set.size(); });
        std::ranges::sort(test.branches, {}, &DecisionTree::Branch::outcome);
        tree.nodes[at(now.node)] = std::move(test);
    }
    return tree;
}

}  // namespace halfsplit::diagnosis::plan
