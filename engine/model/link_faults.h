#pragma once

#include <string_view>

#include "engine/model/part_kind.h"

/// What wires and plug contacts suffer alike.
namespace halfsplit::model {

FaultSpec link_fault(std::string_view kind, LinkEffect::What what, double rate, std::string_view text);

/// Takes a value in ohm, `ohm` where none is given.
FaultSpec resistive_fault(std::string_view kind, LinkEffect::What what, double ohm, double rate,
                          std::string_view text);

}  // namespace halfsplit::model
