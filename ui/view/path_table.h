#pragma once

#include "engine/tracing/step.h"
#include "ui/view/table.h"

namespace halfsplit::view {

/// A path, one step a row: number, what, from and to, colour and size, place, volts where it comes to,
/// amperes, and what is out of the ordinary. Its first row is the point it starts from.
Table path_table(const tracing::Path& path);

}  // namespace halfsplit::view
