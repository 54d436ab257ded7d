#include <algorithm>

#include "engine/base/number.h"
#include "engine/model/chart/read_chart.h"
#include "engine/simulation/chart/moment.h"
#include "engine/simulation/chart/run_chart.h"

namespace halfsplit::simulation {
namespace {

using model::chart::Action;
using model::chart::AssignAsleep;
using model::chart::AssignData;
using model::chart::AssignDriver;
using model::chart::Block;
using model::chart::Branch;
using model::chart::Cancel;
using model::chart::Drive;
using model::chart::DriverLevel;
using model::chart::Expression;
using model::chart::If;
using model::chart::Log;
using model::chart::Raise;
using model::chart::Send;
using model::chart::ValueType;

std::string shown(const Outcome& outcome) {
    if (outcome.type == ValueType::number) return number_text(outcome.number);
    if (outcome.type == ValueType::text) return std::string(outcome.text);
    return outcome.is_true() ? "true" : "false";
}

/// Does one action; false where an error of evaluation ends the block.
class ActionRunner {
  public:
    ActionRunner(Moment& moment, const Location& where) : moment_(moment), where_(where) {}

    bool operator()(const Raise& raise) {
        raise_internal(moment_, raise.event, where_);
        return true;
    }

    bool operator()(const Send& send) {
        double delay_s = send.delay_s;
        if (send.delay_of) {
            const auto outcome = value_of(*send.delay_of);
            if (!outcome) return false;
            delay_s = outcome->number;
        }
        if (delay_s < 0 || delay_s > model::chart::kMaxDelayS)
            return fail(*send.delay_of, number_text(delay_s) + " s is no delay");
        if (delay_s == 0)
            add_external(send.event);
        else
            add_delayed({send.event, send.id, moment_.now_s + delay_s, moment_.state.next_order++});
        return true;
    }

    bool operator()(const Cancel& cancel) {
        auto& delayed = moment_.state.delayed;
        const auto kept = std::remove_if(delayed.begin(), delayed.end(), [&](const DelayedEvent& event) {
            return event.send_id == cancel.send_id;
        });
        delayed.erase(kept, delayed.end());
        return true;
    }

    bool operator()(const Log& log) {
        std::string text = log.label;
        if (log.value) {
            const auto outcome = value_of(*log.value);
            if (!outcome) return false;
            text += (text.empty() ? "" : ": ") + shown(*outcome);
        }
        log_line(moment_, std::move(text));
        return true;
    }

    bool operator()(const AssignData& assign) {
        const auto outcome = value_of(assign.value);
        if (!outcome) return false;
        moment_.state.data[static_cast<std::size_t>(assign.data)] = to_value(*outcome);
        return true;
    }

    bool operator()(const AssignDriver& assign) {
        DriverLevel level;
        if (const Drive* drive = std::get_if<Drive>(&assign.level)) {
            level.drive = *drive;
        } else {
            const Expression& expression = std::get<Expression>(assign.level);
            const auto duty = value_of(expression);
            if (!duty) return false;
            if (duty->number < 0 || duty->number > 1)
                return fail(expression, number_text(duty->number) + " is no duty; 0 to 1 is expected");
            if (duty->number > 0) level = {Drive::on, duty->number};
        }
        moment_.state.drives.insert_or_assign(assign.pin, level);
        return true;
    }

    bool operator()(const AssignAsleep& assign) {
        const auto outcome = value_of(assign.value);
        if (!outcome) return false;
        moment_.state.asleep = outcome->is_true();
        return true;
    }

    bool operator()(const If& choice) {
        for (const Branch& branch : choice.branches)
            if (!branch.condition || condition_holds(moment_, *branch.condition))
                return run(moment_, branch.actions);
        return true;
    }

    static bool run(Moment& moment, const Block& block) {
        for (const Action& action : block)
            if (!std::visit(ActionRunner(moment, action.where), action.what) || moment.problem) return false;
        return true;
    }

  private:
    bool fail(const Expression& expression, const std::string& reason) {
        raise_error(moment_, expression.where, reason);
        return false;
    }

    std::optional<Outcome> value_of(const Expression& expression) {
        const Outcome outcome = evaluate(expression, moment_.state, moment_.senses);
        if (outcome.error == nullptr) return outcome;
        fail(expression, outcome.error);
        return std::nullopt;
    }

    bool has_room(std::size_t waiting) {
        if (waiting < static_cast<std::size_t>(kMaxWaiting)) return true;
        moment_.problem = {
            where_, "more than " + std::to_string(kMaxWaiting) +
                        " events that were sent wait; fewer are expected: does it send them in a loop?"};
        return false;
    }

    void add_external(const std::string& event) {
        if (has_room(moment_.state.external_events.size())) raise_event(moment_.state, event);
    }

    void add_delayed(DelayedEvent event) {
        auto& delayed = moment_.state.delayed;
        if (!has_room(delayed.size())) return;
        const auto place =
            std::upper_bound(delayed.begin(), delayed.end(), event.due_s,
                             [](double due_s, const DelayedEvent& other) { return due_s < other.due_s; });
        delayed.insert(place, std::move(event));
    }

    Moment& moment_;
    const Location& where_;
};

}  // namespace

void carry_out(Moment& moment, const Block& block) {
    ActionRunner::run(moment, block);
}

}  // namespace halfsplit::simulation
