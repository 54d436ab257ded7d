#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/model/chart/chart.h"
#include "engine/simulation/chart/chart_state.h"
#include "engine/simulation/chart/evaluate.h"
#include "engine/simulation/chart/senses.h"

namespace halfsplit::simulation {

/// What one call that runs a chart works on. Time stands still.
struct Moment {
    const model::chart::Chart& chart;
    ChartState& state;
    const Senses& senses;
    double now_s = 0;
    /// Why the chart cannot go on; nothing more is done then.
    std::optional<ChartProblem> problem = std::nullopt;
    /// Conditions that could not be evaluated since the last external event. Each raises error.execution
    /// once: looked at again after its own error it would raise another one, for ever.
    std::vector<const model::chart::Expression*> failed = {};
};

/// Puts an event at the end of the internal queue; `where` is what raises it.
void raise_internal(Moment& moment, std::string event, const Location& where);

/// An error of evaluation: raises error.execution and logs the reason.
void raise_error(Moment& moment, const Location& where, const std::string& reason);

void log_line(Moment& moment, std::string text);

/// Whether the condition holds. One that cannot be evaluated counts as false and raises error.execution
/// (SCXML 5.9.1).
bool condition_holds(Moment& moment, const model::chart::Expression& condition);

/// Does the actions in order. An error of evaluation ends the block (SCXML 4.9, from memory).
void carry_out(Moment& moment, const model::chart::Block& block);

}  // namespace halfsplit::simulation
