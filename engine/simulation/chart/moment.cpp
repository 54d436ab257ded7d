#include "engine/simulation/chart/moment.h"

#include <algorithm>

#include "engine/simulation/chart/run_chart.h"

namespace halfsplit::simulation {

void raise_internal(Moment& moment, std::string event, const Location& where) {
    auto& waiting = moment.state.internal_events;
    if (waiting.size() >= static_cast<std::size_t>(kMaxWaiting))
        moment.problem = {where,
                          "more than " + std::to_string(kMaxWaiting) +
                              " internal events wait; fewer are expected: does it raise them in a loop?"};
    else
        waiting.push_back(std::move(event));
}

void raise_error(Moment& moment, const Location& where, const std::string& reason) {
    log_line(moment, "error.execution at line " + std::to_string(where.line) + ": " + reason);
    raise_internal(moment, "error.execution", where);
}

void log_line(Moment& moment, std::string text) {
    auto& log = moment.state.log;
    const auto most = static_cast<std::size_t>(kMaxLogLines);
    if (log.size() > most) return;
    log.push_back(
        {moment.now_s, log.size() < most ? std::move(text) : "the log is full; what follows is lost"});
}

bool condition_holds(Moment& moment, const model::chart::Expression& condition) {
    const Outcome outcome = evaluate(condition, moment.state, moment.senses);
    if (outcome.error == nullptr) return outcome.is_true();
    const auto& failed = moment.failed;
    if (std::find(failed.begin(), failed.end(), &condition) == failed.end()) {
        moment.failed.push_back(&condition);
        raise_error(moment, condition.where, outcome.error);
    }
    return false;
}

}  // namespace halfsplit::simulation
