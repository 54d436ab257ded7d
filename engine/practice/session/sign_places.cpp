#include "engine/practice/session/sign_places.h"

#include <map>
#include <string_view>

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
}

}  // namespace halfsplit::practice
