#pragma once

#include <string_view>
#include <vector>

#include "engine/model/part_kind.h"

/// Senders with three pins (supply +, ground -, signal o) whose output pulls the signal wire low or lets it
/// go; the voltage in between comes from the receiver.
namespace halfsplit::model::kinds {

std::vector<PinSpec> open_collector_pins();

/// supply-ma.
NumberSpec sender_supply();
/// low-ohm.
NumberSpec sender_output(double low_ohm, std::string_view text);

/// Its supply, and its output, which conducts in `pulling` only.
std::vector<Element> open_collector_elements(const PartView& part, std::string_view pulling);

FaultSpec sender_supply_open();
FaultSpec sender_output_bridged();

}  // namespace halfsplit::model::kinds
