#pragma once

#include <string_view>

#include "engine/model/part_kind.h"
#include "engine/model/part_view.h"

/// Numbers and words that several kinds take alike.
namespace halfsplit::model::kinds {

/// switch-ohm: of a closed contact.
NumberSpec switch_ohm(double fallback, std::string_view text);

/// coil-warms-k: how much warmer a coil gets in the long run at nominal voltage, and what that comes to (the
/// part's other number must be coil-ohm).
NumberSpec coil_warms();
Warming coil_warming(const PartView& part);

/// quantity: the temperature a part feels.
WordSpec felt_temperature();

}  // namespace halfsplit::model::kinds
