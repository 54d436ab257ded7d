#include "engine/practice/session/sign_places.h"

#include <map>
#include <set>
#include <string_view>

#include "engine/base/index.h"

namespace halfsplit::practice {

SignPlaces::SignPlaces(const std::vector<diagnosis::SignSource>& sources, const network::Network& network) {
    std::map<std::string_view, std::vector<int>> by_name;
    for (std::size_t i = 0; i < network.branches.size(); ++i)
        by_name[network.branches[i].name].push_back(static_cast<int>(i));
    for (const diagnosis::SignSource& source : sources) {
        const auto found = by_name.find(source.branch);
        const bool is_there = !source.branch.empty() && found != by_name.end();
        branches_.push_back(is_there ? found->second : std::vector<int>{});
    }
    std::set<int> nodes;
    for (const std::vector<int>& its : branches_)
        for (const int branch : its) {
            all_branches_.push_back(branch);
            const auto& electrical = network.branches[at(branch)].electrical;
            for (const int node : {electrical.from, electrical.to})
                if (node != network::kBody) nodes.insert(node);
        }
    nodes_.assign(nodes.begin(), nodes.end());
}

}  // namespace halfsplit::practice
