#pragma once

#include <optional>
#include <string>

#include "engine/model/circuit.h"
#include "engine/model/part_view.h"
#include "ui/window/frame/frame.h"

namespace halfsplit::window {

/// What a hand has done to a switch, a door, a quantity of the world.
struct Setting {
    std::string what;
    std::string to;
    bool springs_back = false;  ///< when it is let go; not told where it is held down
};

/// How everything that can be set stands now: conditions by part, as simulation::Course has them.
struct Standing {
    const std::vector<int>* conditions = nullptr;
    const model::Quantities* quantities = nullptr;
    /// What springs back is pushed once and not held down: time goes by in steps here.
    bool in_steps = false;
};

/// Everything a hand can set, each as the thing it is: what springs back is on only while it is held down.
/// At most one is set in a frame.
std::optional<Setting> controls(const Frame& frame, const model::Circuit& circuit, const Standing& standing);

/// Those of one part.
std::optional<Setting> control(const Frame& frame, const model::Circuit& circuit, int part,
                               const Standing& standing);

/// Whether a hand can set it.
bool is_control(const model::Part& part);

}  // namespace halfsplit::window
