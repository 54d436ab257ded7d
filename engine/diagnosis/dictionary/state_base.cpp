#include "engine/diagnosis/dictionary/state_base.h"

#include <algorithm>
#include <span>
#include <stdexcept>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/share_out.h"
#include "engine/simulation/time_to_act.h"

namespace halfsplit::diagnosis {

using model::Circuit;

namespace {

tl::expected<void, Diagnostics> add_stage(const Circuit& circuit, const network::Situation& situation,
                                          StateBase& base) {
    auto network = network::build_network(circuit, situation);
    if (!network) return tl::unexpected(network.error());
    base.stages.push_back({situation, std::move(*network)});
    return {};
}

/// As simulation::settle() carries the steps out. What settles twice in one situation is at rest already.
tl::expected<void, Diagnostics> add_stages(const Circuit& circuit, const model::OperatingState& state,
                                           StateBase& base) {
    network::Situation situation;
    bool is_new = true;
    for (const model::StateStep& step : state.steps) {
        if (const auto* set = std::get_if<model::SetStep>(&step)) {
            if (const auto applied = simulation::apply_set(circuit, set->what, set->to, situation); !applied)
                return tl::unexpected(Diagnostics{{set->where, applied.error()}});
            is_new = true;
        } else if (is_new) {
            if (auto added = add_stage(circuit, situation, base); !added) return added;
            is_new = false;
        }
    }
    if (is_new) return add_stage(circuit, situation, base);
    return {};
}

/// Adds what each fault changes in one more stage.
void find_changes(const Circuit& circuit, const StateBase::Stage& stage,
                  std::span<const PossibleFault> faults, std::span<StagedChange> changes) {
    auto finder = network::FaultChanges::in(circuit, stage.network, stage.situation);
    if (!finder) throw std::logic_error(finder.error().front().message);
    for (std::size_t i = 0; i < faults.size(); ++i) {
        if (!changes[i]) continue;
        if (auto change = finder->of(faults[i].fault))
            changes[i]->push_back(std::move(*change));
        else
            changes[i].reset();
    }
}

}  // namespace

tl::expected<StateBase, Diagnostics> StateBase::of(const Circuit& circuit, const model::OperatingState& state,
                                                   const std::vector<Finding>& findings) {
    StateBase base;
    auto settled = simulation::settle(circuit, {}, state.steps);
    if (!settled) return tl::unexpected(settled.error());
    base.lives = settled->living.has_value();
    if (base.lives) {
        base.conditions = settled->point.conditions;
        base.lasts_s = simulation::duration_s(state.steps);
        const auto built = network::build_network(circuit, settled->situation);
        if (!built) return tl::unexpected(built.error());
        network::Network in_time = settled->network;
        simulation::let_act_within(in_time, base.lasts_s);
        base.waking = Waking::of(circuit, in_time, base.conditions, built->conditions);
        base.stages.push_back({std::move(settled->situation), std::move(settled->network)});
    } else {
        if (auto added = add_stages(circuit, state, base); !added) return tl::unexpected(added.error());
        base.conditions = base.stages.front().network.conditions;
    }
    base.places = places_of(circuit, findings, base.stages.back().network);
    return base;
}

std::vector<StagedChange> changes_of(const Circuit& circuit, const StateBase& base,
                                     const std::vector<PossibleFault>& faults, int threads) {
    std::vector<StagedChange> changes(faults.size(), std::vector<network::FaultChange>());
    const std::size_t blocks = at(std::max(1, threads));
    share_out(static_cast<int>(blocks), threads, [&](int block, int) {
        const std::size_t first = faults.size() * at(block) / blocks;
        const std::size_t last = faults.size() * (at(block) + 1) / blocks;
        for (const StateBase::Stage& stage : base.stages)
            find_changes(circuit, stage, std::span(faults).subspan(first, last - first),
                         std::span(changes).subspan(first, last - first));
    });
    return changes;
}

StagedChange together(const StagedChange& one, const StagedChange& other) {
    if (!one || !other) return std::nullopt;
    std::vector<network::FaultChange> both;
    for (std::size_t stage = 0; stage < one->size(); ++stage) {
        auto change = network::together((*one)[stage], (*other)[stage]);
        if (!change) return std::nullopt;
        both.push_back(std::move(*change));
    }
    return both;
}

}  // namespace halfsplit::diagnosis
