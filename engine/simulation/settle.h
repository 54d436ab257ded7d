#pragma once

#include <optional>
#include <span>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/network/network.h"
#include "engine/simulation/course_state.h"
#include "engine/simulation/operating_point.h"

namespace halfsplit::simulation {

/// A circuit in a situation, come to rest.
struct Settled {
    network::Situation situation;  ///< with what the steps have set
    network::Network network;
    OperatingPoint point;
    /// Where the course of time goes on from, in circuits that live (see lives()).
    std::optional<CourseState> living = {};
};

/// Whether something in the circuit goes on by itself: a control unit acts, a mechanism travels, a sender or
/// a flasher beats. Such a circuit is brought to a state by running it through time.
bool lives(const network::Network& network, const model::Circuit& circuit);

/// Carries out the steps one after the other (each `settle`, and the end, brings the circuit to rest; one
/// that lives runs for the seconds given, or until nothing moves) with the situation's faults present from
/// the start. Instruments (attachments, insertions) join at the end, to a circuit that works already. An
/// error: something named does not exist, or the circuit does not come to rest.
tl::expected<Settled, Diagnostics> settle(const model::Circuit& circuit, const network::Situation& situation,
                                          std::span<const model::StateStep> steps);

/// How long the steps take, at most, in a circuit that lives: who comes to rest sooner is not waited for.
double duration_s(std::span<const model::StateStep> steps);

/// Brings a settled circuit to rest again after its situation changed; relays and the like start where they
/// were.
tl::expected<Settled, Diagnostics> settle_again(const model::Circuit& circuit, const Settled& before,
                                                const network::Situation& situation);

/// One `set`: a position, a condition or a quantity. What is set must exist; whether it may take the value is
/// checked when the network is built.
tl::expected<void, std::string> apply_set(const model::Circuit& circuit, const std::string& what,
                                          const std::string& to, network::Situation& situation);

}  // namespace halfsplit::simulation
