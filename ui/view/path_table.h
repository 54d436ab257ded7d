#pragma once

#include <string>
#include <vector>

#include "engine/tracing/step.h"
#include "ui/view/table.h"

namespace halfsplit::view {

/// What people call a step: "W31", "F7" (its element has a name only inside), "K2.30-87", "plug contact
/// M3.1".
std::string step_name(const tracing::Step& step);

/// Those steps that have a row in path_table(), in its order: sound plug contacts have none.
std::vector<tracing::Step> told_steps(const tracing::Path& path);

/// A path, one step a row: number, what, from and to, colour and size, place, volts where it comes to,
/// amperes, and what is out of the ordinary. Its first row is the point it starts from.
Table path_table(const tracing::Path& path);

}  // namespace halfsplit::view
