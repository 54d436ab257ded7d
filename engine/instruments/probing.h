#pragma once

#include <string>
#include <string_view>

#include "engine/instruments/instrument.h"

namespace halfsplit::instruments {

/// Potential difference from one point to the other, in volts. Both must exist (they do once attachments were
/// made).
double voltage_between(const simulation::Settled& settled, const std::string& from, const std::string& to);

/// Sum of the currents of all branches of this name: a wire, a plug contact, an instrument's own branch.
double current_through(const simulation::Settled& settled, std::string_view name);

/// True where nothing drives the point.
bool is_floating(const simulation::Settled& settled, const std::string& point);

/// Errors for a lead that cannot go there: no such point (near names suggested), or no such wire or contact.
tl::expected<void, Diagnostics> check_points(const Bench& bench, const Leads& leads);
tl::expected<void, Diagnostics> check_series_place(const Bench& bench, const std::string& where);

/// The part a point belongs to, or nullptr for the body.
const model::Part* part_of_point(const model::Circuit& circuit, std::string_view point);

/// True for points on senders and control units, which a lamp's or jumper's current can harm.
bool is_electronic(const model::Circuit& circuit, std::string_view point);

}  // namespace halfsplit::instruments
