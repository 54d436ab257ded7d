#pragma once

namespace halfsplit::view {

/// 1, 2 or 5 times a power of ten, so that no more than so many steps make up `most`.
double tick_step(double most, int steps);

}  // namespace halfsplit::view
