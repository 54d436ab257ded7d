#pragma once

#include <vector>

#include "ui/view/diagram/sheet.h"

namespace halfsplit::view::diagram {

/// Cuts a sheet into bands that stand below each other, each about `slots` wide. What is wired pin to pin
/// stays together; splices and ground points go on in every band that needs them, and say in which others.
std::vector<Sheet> bands_of(const model::Circuit& circuit, const Sheet& whole, const Heights& heights,
                            int slots);

}  // namespace halfsplit::view::diagram
