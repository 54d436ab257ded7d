#pragma once

#include <span>
#include <vector>

#include "engine/model/circuit.h"
#include "engine/network/network.h"
#include "engine/simulation/operating_point.h"
#include "engine/tracing/role.h"

namespace halfsplit::tracing {

/// How far a search goes: through what conducts in the present conditions, or through every contact, fuse and
/// torn wire as if it were whole and closed.
enum class Extent { now, as_wired };

/// Which way a path is walked, for what lets current pass one way only.
enum class Sense { with_current, against_current, either };

/// Currents below this are taken as none: less than any workshop instrument resolves, more than a voltmeter
/// of 10 megohm draws.
inline constexpr double kNoCurrentA = 1e-5;

/// The multigraph of a network in its operating point, with what tracing asks of it again and again. Borrows
/// circuit, network and operating point. Vertices: 0 … node_count-1 the nodes, node_count the body.
class Wiring {
  public:
    Wiring(const model::Circuit& circuit, const network::Network& network,
           const simulation::OperatingPoint& point);

    const model::Circuit& circuit() const { return circuit_; }
    const network::Network& network() const { return network_; }
    const simulation::OperatingPoint& point() const { return point_; }

    int vertex_count() const { return network_.node_count + 1; }
    int branch_count() const { return static_cast<int>(network_.branches.size()); }
    int body() const { return network_.node_count; }
    int vertex(int node) const { return node == network::kBody ? body() : node; }
    int node(int vertex) const { return vertex == body() ? network::kBody : vertex; }

    const network::NetworkBranch& branch(int index) const;
    Role role(int branch) const { return roles_[static_cast<std::size_t>(branch)]; }
    bool conducts_now(int branch) const { return conducts_[static_cast<std::size_t>(branch)]; }
    int from(int branch) const { return vertex(this->branch(branch).electrical.from); }
    int to(int branch) const { return vertex(this->branch(branch).electrical.to); }
    int far_end(int branch, int vertex) const { return from(branch) == vertex ? to(branch) : from(branch); }
    /// The current that leaves `vertex` through the branch.
    double current_out(int branch, int vertex) const;

    /// Of an element with several laws only the one that counts now; nothing that joins a node to itself.
    std::span<const int> branches_at(int vertex) const;
    bool is_shadowed(int branch) const { return shadowed_[static_cast<std::size_t>(branch)]; }

    /// Positive terminals of sources: poles of batteries, outputs of alternators that turn, biased pins of
    /// units.
    const std::vector<bool>& supplies() const { return supplies_; }
    /// The body and negative poles.
    const std::vector<bool>& grounds() const { return grounds_; }

    /// False where the branch carries nothing anyone could follow: a source, a diode met from its wrong side,
    /// a load, or (in the present conditions) what is open.
    bool passes(int branch, int from_vertex, Extent extent, Sense sense) const;
    /// Two contacts of one part that are never closed together, such as 87 and 87a or the two sides of a
    /// half-bridge.
    bool exclude_each_other(int branch, int other) const;

  private:
    void find_roles();
    void shadow_laws_not_at_work();
    void find_terminals();
    void list_branches();

    const model::Circuit& circuit_;
    const network::Network& network_;
    const simulation::OperatingPoint& point_;
    std::vector<Role> roles_;
    std::vector<bool> conducts_;
    std::vector<bool> shadowed_;
    std::vector<bool> supplies_;
    std::vector<bool> grounds_;
    std::vector<std::vector<int>> branches_at_;
};

}  // namespace halfsplit::tracing
