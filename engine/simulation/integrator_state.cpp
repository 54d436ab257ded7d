#include "engine/base/index.h"
#include "engine/simulation/integrator.h"

namespace halfsplit::simulation {

IntegratorState Integrator::state() const {
    const std::span<const network::Tangent> once = at_once_.tangents();
    return {x_, per_s_, turning_, {tangents().begin(), tangents().end()}, {once.begin(), once.end()}, start_};
}

bool Integrator::resume(const IntegratorState& state) {
    if (state.x.size() != x_.size() || state.per_s.size() != x_.size() || state.turning.size() != x_.size() ||
        state.moment.potential_v.size() != at(chains_.node_count()) ||
        state.moment.current_a.size() != chains_.branches().size())
        return false;
    if (!solver_.set_tangents(state.tangents) || !at_once_.set_tangents(state.tangents_at_once)) return false;
    x_ = state.x;
    per_s_ = state.per_s;
    turning_ = state.turning;
    start_ = state.moment;
    return true;
}

}  // namespace halfsplit::simulation
