#pragma once

#include <set>
#include <vector>

#include "engine/tracing/wiring.h"

namespace halfsplit::diagnosis {

/// How the vertices of a circuit lie between supply and ground as wired, every switch taken as closed: the
/// order somebody meets them in who follows one current path after the other with a finger. Vertices are
/// those of tracing::Wiring.
class Walk {
  public:
    explicit Walk(const tracing::Wiring& wiring);

    /// Rising along each current path; parts and wires that start at the same point come in the author's
    /// order. What no supply reaches comes last.
    int rank(int vertex) const { return ranks_[static_cast<std::size_t>(vertex)]; }
    /// How far from supply: a step a wire or contact, a thousand a load. Infinite where none reaches.
    double depth(int vertex) const { return depths_[static_cast<std::size_t>(vertex)]; }
    /// The fuse passed last on the shortest way from supply: index of a part, -1 where there is none.
    int fuse(int vertex) const { return fuses_[static_cast<std::size_t>(vertex)]; }
    /// The ground points that can be come to from there, through loads too, going on from supply: indices of
    /// parts.
    const std::set<int>& grounds(int vertex) const { return grounds_[static_cast<std::size_t>(vertex)]; }

  private:
    bool leads_on(int branch, int vertex) const;
    bool leads_away(int branch, int vertex) const;
    void find_ground_steps();
    void find_depths();
    void find_ranks();
    void find_grounds();

    const tracing::Wiring& wiring_;
    /// Of what is joined to ground by wires and plugs alone: how many of them; -1 elsewhere. From there
    /// current goes nowhere but nearer to ground.
    std::vector<int> ground_steps_;
    std::vector<double> depths_;
    std::vector<int> settled_;  ///< vertices that supply reaches, the nearest first
    std::vector<int>
        last_contact_;  ///< per vertex: the switching contact passed last on the way there, or -1
    std::vector<int> fuses_;
    std::vector<int> ranks_;
    std::vector<std::set<int>> grounds_;
};

/// Whether a part is a ground point.
bool is_ground_point(const model::Part& part);

}  // namespace halfsplit::diagnosis
