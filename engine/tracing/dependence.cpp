#include "engine/tracing/dependence.h"

#include <algorithm>

#include "engine/tracing/cut_tree.h"

namespace halfsplit::tracing {

namespace {

/// The tree of one side's single elements. Branches are vertices too, each in the middle of its edge, so that
/// what opens (a bridge) and what falls apart (an articulation point) are found alike. Vertices of the
/// wiring first, then branches, then the root.
class SideTree {
  public:
    SideTree(const Wiring& wiring, const std::vector<bool>& ends, bool towards_supply)
        : tree_(wiring.vertex_count() + wiring.branch_count() + 1, edges(wiring, ends, towards_supply),
                wiring.vertex_count() + wiring.branch_count()) {}

    bool is_reached(int vertex) const { return tree_.is_reached(vertex); }

    /// With the vertex itself: where it falls apart, the terminal there is cut off too.
    std::vector<int> elements_to(int vertex) const {
        std::vector<int> elements = tree_.cuts_to(vertex);
        elements.push_back(vertex);
        std::ranges::sort(elements);
        return elements;
    }

  private:
    static std::vector<CutEdge> edges(const Wiring& wiring, const std::vector<bool>& ends,
                                      bool towards_supply) {
        const int root = wiring.vertex_count() + wiring.branch_count();
        std::vector<CutEdge> all;
        for (int vertex = 0; vertex < wiring.vertex_count(); ++vertex)
            if (ends[static_cast<std::size_t>(vertex)]) all.push_back({root, vertex, false});
        for (int branch = 0; branch < wiring.branch_count(); ++branch) {
            const int from = wiring.from(branch);
            const int to = wiring.to(branch);
            if (from == to || wiring.is_shadowed(branch)) continue;
            if (!wiring.passes(branch, from, Extent::now, Sense::either)) continue;
            if (towards_supply && (wiring.grounds()[static_cast<std::size_t>(from)] ||
                                   wiring.grounds()[static_cast<std::size_t>(to)]))
                continue;  // no feed comes through the body
            const bool one_way = wiring.role(branch) == Role::valve;
            const int middle = wiring.vertex_count() + branch;
            all.push_back({towards_supply ? from : to, middle, one_way});
            all.push_back({middle, towards_supply ? to : from, one_way});
        }
        return all;
    }

    CutTree tree_;
};

bool contains(const std::vector<int>& sorted, int element) {
    return std::ranges::binary_search(sorted, element);
}

}  // namespace

std::vector<bool> ready_supplies(const Wiring& wiring) {
    std::vector<bool> ready(static_cast<std::size_t>(wiring.vertex_count()), false);
    for (int branch = 0; branch < wiring.branch_count(); ++branch) {
        if (wiring.role(branch) != Role::source || !wiring.conducts_now(branch)) continue;
        if (wiring.branch(branch).source == network::BranchSource::instrument) continue;
        const bool regulated =
            std::holds_alternative<model::RegulatedSource>(wiring.branch(branch).electrical.law);
        const int positive = wiring.from(branch);
        if (!regulated || wiring.current_out(branch, positive) < -kNoCurrentA)
            ready[static_cast<std::size_t>(positive)] = true;
    }
    return ready;
}

Dependence::Dependence(const Wiring& wiring, const std::vector<LoadGroup>& loads)
    : loads_(loads), vertex_count_(wiring.vertex_count()) {
    const SideTree feed(wiring, ready_supplies(wiring), true);
    const SideTree ground(wiring, wiring.grounds(), false);
    for (const LoadGroup& load : loads) {
        working_.emplace_back();
        for (const int fed : load.terminals)
            for (const int grounded : load.terminals)
                if (fed != grounded && feed.is_reached(fed) && ground.is_reached(grounded))
                    working_.back().push_back({feed.elements_to(fed), ground.elements_to(grounded)});
    }
}

std::vector<LostLoad> Dependence::lost_without(int element) const {
    std::vector<LostLoad> lost;
    for (std::size_t i = 0; i < loads_.size(); ++i) {
        const std::vector<Working>& ways = working_[i];
        const auto is_lost = [&](const Working& way) {
            return contains(way.feed, element) || contains(way.ground, element);
        };
        if (ways.empty() || !std::ranges::all_of(ways, is_lost)) continue;
        lost.push_back(
            {loads_[i].name, loads_[i].part,
             std::ranges::any_of(ways, [&](const Working& way) { return contains(way.feed, element); }),
             std::ranges::any_of(ways, [&](const Working& way) { return contains(way.ground, element); }),
             ""});
    }
    return lost;
}

std::vector<LostLoad> Dependence::lost_if_opens(int branch) const {
    return lost_without(vertex_count_ + branch);
}

std::vector<LostLoad> Dependence::lost_if_parts(int vertex) const {
    return lost_without(vertex);
}

}  // namespace halfsplit::tracing
