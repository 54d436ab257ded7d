#include "ui/window/frame/landmarks_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace halfsplit::window {

std::string landmarks_json(const Landmarks& landmarks) {
    nlohmann::json all = nlohmann::json::object();
    for (const auto& [name, box] : landmarks.all())
        all[name] = {std::lround(box.left), std::lround(box.top), std::lround(box.right),
                     std::lround(box.bottom)};
    return all.dump();
}

}  // namespace halfsplit::window
