#pragma once

#include <string_view>

#include "engine/model/part_kind.h"

/// Numbers and words that several kinds take alike.
namespace halfsplit::model::kinds {

/// switch-ohm: of a closed contact.
NumberSpec switch_ohm(double fallback, std::string_view text);

/// quantity: the temperature a part feels.
WordSpec felt_temperature();

}  // namespace halfsplit::model::kinds
